# Logistic regression on random halves: what dystrophy.R and hemophilia.R share.

# A linear congruential generator (Park and Miller 1988, minimal standard), the same in the tests: one
# stream through all halves.
state <- 753
uniform <- function() {
  state <<- (16807 * state) %% 2147483647
  state / 2147483647
}

# Which of n are in each of so many halves.
halves_of <- function(n, size, number) {
  lapply(seq_len(number), function(half) seq_len(n) %in% order(replicate(n, uniform()))[seq_len(size)])
}

# The chance that a carrier is given more than another woman; ties count half.
auc <- function(p, carrier) {
  ranks <- rank(round(p, 9))
  n <- sum(carrier)
  (sum(ranks[carrier == 1]) - n * (n + 1) / 2) / (n * (length(p) - n))
}

# Thirds by rank as levels, equal numbers in the order in which they stand.
thirds <- function(x) {
  factor(((rank(x, ties.method = "first") - 1) * 3) %/% length(x), levels = 0:2)
}

# R's glm on `marks` of the tested half, and how well it predicts the others. `name` tells sets of
# marks apart.
predicted <- function(name, marks, carrier, halves) {
  data <- cbind(marks, carrier = carrier)
  out <- data.frame()
  for (half in seq_along(halves)) {
    tested <- halves[[half]]
    fit <- suppressWarnings(glm(carrier ~ ., binomial, data[tested, ]))
    p <- suppressWarnings(predict(fit, data[!tested, ], type = "response"))
    y <- carrier[!tested]
    out <- rbind(out, data.frame(marks = name, half = half, carriers = sum(y), auc = auc(p, y),
                                 brier = mean((y - p)^2)))
  }
  out
}

written <- function(out, file) {
  write.csv(format(out, digits = 12, trim = TRUE), file, row.names = FALSE, quote = FALSE)
}
