# Forecasts with outcomes by R packages: pROC (1.18.0), epiR (2.0.57), rms (6.5-0), psych (2.2.9) and vcd (1.4-11), and
# R's own glm and isoreg (4.2.2). Reads audit_forecasts_1.csv to _6, writes audit_r.csv: list, statistic, the forecast
# that it is at where it has one, and value, NA where there is none. Run from this folder: Rscript audit.R
suppressPackageStartupMessages({
  library(pROC)
  library(epiR)
  library(rms)
  library(psych)
})

out <- data.frame()
list_number <- 0
put <- function(statistic, value, at = "") {
  out <<- rbind(out, data.frame(list = list_number, statistic = statistic, at = at,
                                value = as.numeric(value)))
}

# None where a forecast parts the kinds or only touches.
overlap <- function(p, y) {
  any(y == 1) && any(y == 0) && max(p[y == 0]) > min(p[y == 1]) && max(p[y == 1]) > min(p[y == 0])
}

calibration <- function(p, y) {
  x <- qlogis(p)
  control <- glm.control(epsilon = 1e-14, maxit = 100)
  large <- glm(y ~ 1, binomial, offset = x, control = control)
  put("intercept in the large", coef(large))
  if (!overlap(p, y)) {
    for (name in c("intercept", "slope", "variance of intercept", "covariance", "variance of slope")) put(name, NA)
    return(invisible())
  }
  fit <- glm(y ~ x, binomial, control = control)
  # summary() takes the weights of the step before the last; at the maximum itself they are these.
  m <- fitted(fit)
  design <- cbind(1, x)
  v <- solve(t(design) %*% (design * (m * (1 - m))))
  put("intercept", coef(fit)[1])
  put("slope", coef(fit)[2])
  put("variance of intercept", v[1, 1])
  put("covariance", v[1, 2])
  put("variance of slope", v[2, 2])
}

discrimination <- function(p, y) {
  curve <- roc(y, p, levels = c(0, 1), direction = "<", quiet = TRUE)
  ci <- ci.auc(curve, method = "delong")
  put("auc", ci[2])
  put("auc low", ci[1])
  put("auc high", ci[3])
  put("auc variance", var(curve, method = "delong"))
  # Against the same forecasts to one place.
  coarse <- roc(y, round(p, 1), levels = c(0, 1), direction = "<", quiet = TRUE)
  test <- roc.test(curve, coarse, method = "delong", paired = TRUE)
  put("auc difference z", test$statistic)
  put("auc difference p", test$p.value)
}

# val.prob on the clamped forecasts, as it takes no 0 and 1.
by_val_prob <- function(p, y) {
  found <- val.prob(p, y, pl = FALSE)
  put("clamped auc", found["C (ROC)"])
  put("clamped brier", found["Brier"])
  put("clamped spiegelhalter z", found["S:z"])
  put("val.prob intercept", found["Intercept"])
  put("val.prob slope", found["Slope"])
}

# Positive at 1/2 or more. epiR has no rule for empty cells: for ratios 1/2 is added to all where one is.
test_accuracy <- function(p, y) {
  call <- p >= 0.5
  table <- matrix(c(sum(call & y == 1), sum(!call & y == 1), sum(call & y == 0), sum(!call & y == 0)), 2)
  whole <- epi.tests(table, method = "wilson")$detail
  filled <- epi.tests(if (any(table == 0)) table + 0.5 else table, method = "wilson")$detail
  for (name in c("se", "sp", "lr.pos", "lr.neg", "diag.or")) {
    found <- if (name %in% c("se", "sp")) whole else filled
    row <- found[found$statistic == name, ]
    put(name, row$est)
    put(paste(name, "low"), row$lower)
    put(paste(name, "high"), row$upper)
  }
}

# Of the calls and the outcomes as two scorers: at 1/2, and in thirds with outcomes at the ends.
agreement <- function(p, y) {
  two <- table(factor(p >= 0.5, c(FALSE, TRUE)), factor(y == 1, c(FALSE, TRUE)))
  three <- table(factor((p >= 1 / 3) + (p >= 2 / 3), 0:2), factor(2 * y, 0:2))
  for (k in 2:3) {
    counts <- matrix(if (k == 2) two else three, k)
    n <- sum(counts)
    found <- cohen.kappa(counts, n.obs = n)
    put(paste("kappa of", k), found$kappa)
    put(paste("kappa error of", k), sqrt(found$var.kappa))
    put(paste("quadratic kappa of", k), found$weighted.kappa)
    # The weighted error of psych weighs one margin by itself (rowSums(w * rs)) and is not that of Fleiss, Cohen and
    # Everitt (1969) where margins differ: that of vcd is.
    for (weights in c("quadratic", "linear")) {
      weighted <- vcd::Kappa(counts, weights = if (weights == "linear") "Equal-Spacing" else "Fleiss-Cohen")$Weighted
      put(paste(weights, "kappa of", k), weighted["value"])
      put(paste(weights, "kappa error of", k), weighted["ASE"])
    }
  }
}

curve_of <- function(p, y) {
  fit <- isoreg(p, y)
  x <- if (fit$isOrd) fit$x else fit$x[fit$ord]
  keep <- !duplicated(x)
  put("isotonic", fit$yf[keep], format(x[keep], digits = 15, trim = TRUE, drop0trailing = TRUE))
  put("isotonic index", mean(abs(x - fit$yf)))
}

for (list_number in 1:6) {
  all <- read.csv(paste0("audit_forecasts_", list_number, ".csv"))
  all <- all[all$outcome == 0 | all$outcome == 1, ]
  p <- all$probability
  y <- all$outcome
  clamped <- pmin(pmax(p, 1e-6), 1 - 1e-6)
  put("brier", mean((p - y)^2))
  put("log score", mean(-log2(pmax(ifelse(y == 1, p, 1 - p), 1e-15))))
  put("observed to expected", sum(y) / sum(p))
  put("spiegelhalter z", sum((y - p) * (1 - 2 * p)) / sqrt(sum((1 - 2 * p)^2 * p * (1 - p))))
  calibration(clamped, y)
  discrimination(p, y)
  by_val_prob(clamped, y)
  test_accuracy(p, y)
  agreement(p, y)
  curve_of(p, y)
}
out$value <- ifelse(is.na(out$value), "NA", format(out$value, digits = 15, trim = TRUE, scientific = TRUE))
write.csv(out, "audit_r.csv", row.names = FALSE, quote = FALSE)
