# Carriers of a bleeding disorder told from others by logistic regression on two marks: R's glm on
# twenty random halves of 75 women, written to hemophilia_logistic.csv. Run from this folder:
# Rscript hemophilia.R
#
# hemophilia.csv: log10 of the activity and of the antigen of a clotting factor of 30 women who are
# no carriers and 45 who are, from Habbema, Hermans and van den Broek 1974, COMPSTAT, Physica Verlag,
# pages 101-110, as typed out by the R package rrcov (1.7-2, data set "hemophilia"). Not the women of
# Bouma et al. 1975, whose means and covariances another check has.

# A linear congruential generator (Park and Miller 1988, minimal standard), the same in the test: one
# stream through all halves.
state <- 753
uniform <- function() {
  state <<- (16807 * state) %% 2147483647
  state / 2147483647
}

# The chance that a carrier is given more than another woman; ties count half.
auc <- function(p, carrier) {
  ranks <- rank(round(p, 9))
  n <- sum(carrier)
  (sum(ranks[carrier == 1]) - n * (n + 1) / 2) / (n * (length(p) - n))
}

thirds <- function(x) factor((rank(x, ties.method = "first") - 1) %/% 25, levels = 0:2)

women <- read.csv("hemophilia.csv")
units <- round(1e4 * women[, c("activity", "antigen")])
pairs <- list(ratio = data.frame(m1 = thirds(units$antigen - units$activity),
                                 m2 = thirds(units$antigen)),
              plain = data.frame(m1 = thirds(units$activity), m2 = thirds(units$antigen)))
halves <- lapply(1:20, function(half) seq_len(75) %in% order(replicate(75, uniform()))[1:38])
out <- data.frame()
for (pair in names(pairs)) {
  marks <- cbind(pairs[[pair]], carrier = women$carrier)
  for (half in 1:20) {
    tested <- halves[[half]]
    fit <- suppressWarnings(glm(carrier ~ m1 + m2, binomial, marks[tested, ]))
    p <- predict(fit, marks[!tested, ], type = "response")
    y <- marks$carrier[!tested]
    out <- rbind(out, data.frame(marks = pair, half = half, carriers = sum(y), auc = auc(p, y),
                                 brier = mean((y - p)^2)))
  }
}
write.csv(format(out, digits = 12, trim = TRUE), "hemophilia_logistic.csv", row.names = FALSE,
          quote = FALSE)
