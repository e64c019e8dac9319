# Carriers told from others by logistic regression on four marks: R's glm on herds that are drawn
# here, written to logistic.csv. Run from this folder: Rscript logistic.R

# A linear congruential generator (Park and Miller 1988, minimal standard), the same in the test: one
# stream through all herds.
state <- 753
uniform <- function() {
  state <<- (16807 * state) %% 2147483647
  state / 2147483647
}

# P(level) of four marks, the strongest first, the last telling nothing: others, then carriers.
marks <- list(rbind(c(0.75, 0.20, 0.05), c(0.25, 0.35, 0.40)),
              rbind(c(0.60, 0.30, 0.10), c(0.35, 0.35, 0.30)),
              rbind(c(0.50, 0.30, 0.20), c(0.40, 0.30, 0.30)),
              rbind(c(0.40, 0.40, 0.20), c(0.40, 0.40, 0.20)))

read_mark <- function(of, carrier) {
  row <- of[carrier + 1, ]
  u <- uniform()
  if (u < row[1]) 0 else if (u < row[1] + row[2]) 1 else 2
}

# 400 animals that show nothing. "founders": two alleles each, a quarter of them "e"; those with two
# show it, are counted and read for no mark. "clutches": each hatchling of a carrier and a founder
# without "e" carries it with 1/2.
herd <- function(kind) {
  visuals <- 0
  rows <- matrix(0, 400, 5)
  i <- 1
  while (i <= 400) {
    if (kind == "founders") {
      copies <- (uniform() < 0.25) + (uniform() < 0.25)
    } else {
      copies <- as.numeric(uniform() < 0.5)
    }
    if (copies == 2) {
      visuals <- visuals + 1
    } else {
      rows[i, ] <- c(copies, sapply(marks, read_mark, copies))
      i <- i + 1
    }
  }
  list(visuals = visuals, rows = rows)
}

# The chance that a carrier is given more than another animal; ties count half.
auc <- function(p, carrier) {
  ranks <- rank(round(p, 9))
  n <- sum(carrier)
  (sum(ranks[carrier == 1]) - n * (n + 1) / 2) / (n * (length(p) - n))
}

out <- data.frame()
for (kind in c("founders", "clutches")) {
  for (number in 1:10) {
    drawn <- herd(kind)
    animals <- data.frame(carrier = drawn$rows[, 1])
    for (m in 1:4) animals[paste0("m", m)] <- factor(drawn$rows[, 1 + m], levels = 0:2)
    tested <- seq_len(400) %% 2 == 1
    fit <- glm(carrier ~ m1 + m2 + m3 + m4, binomial, animals[tested, ],
               control = glm.control(epsilon = 1e-12, maxit = 100))
    stopifnot(fit$converged)
    p <- predict(fit, animals[!tested, ], type = "response")
    y <- animals$carrier[!tested]
    out <- rbind(out, data.frame(herd = kind, number = number, visuals = drawn$visuals,
                                 carriers = sum(animals$carrier), auc = auc(p, y),
                                 brier = mean((y - p)^2), t(unname(coef(fit)))))
  }
}
names(out)[7:15] <- c("intercept", paste0("m", rep(1:4, each = 2), ".", 1:2))
write.csv(format(out, digits = 12, trim = TRUE), "logistic.csv", row.names = FALSE, quote = FALSE)
