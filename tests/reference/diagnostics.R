# Convergence diagnostics of fixed chains by the R package posterior (Vehtari et al. 2021), written
# to diagnostics.csv. Run from this folder: Rscript diagnostics.R
suppressPackageStartupMessages(library(posterior))

# A linear congruential generator (Park and Miller 1988, minimal standard), the same in the test.
uniform <- function(n, state) {
  out <- numeric(n)
  for (i in seq_len(n)) {
    state <- (16807 * state) %% 2147483647
    out[i] <- state / 2147483647
  }
  out
}

# Autoregressive chains of the given carry, shift of the last chain, and scale of it.
chains <- function(n, m, carry, shift, scale) {
  sapply(seq_len(m), function(c) {
    noise <- uniform(n, 1000 + 77 * c) - 0.5
    x <- numeric(n)
    last <- 0
    for (i in seq_len(n)) {
      last <- carry * last + noise[i]
      x[i] <- last
    }
    if (c == m) x * scale + shift else x
  })
}

cases <- rbind(c(200, 4, 0.0, 0, 1), c(500, 4, 0.9, 0, 1), c(301, 2, 0.5, 0, 1),
               c(400, 4, 0.3, 0.2, 1), c(400, 4, 0.3, 0, 3), c(1000, 1, 0.7, 0, 1),
               c(400, 4, -0.5, 0, 1))
out <- data.frame()
for (i in seq_len(nrow(cases))) {
  k <- cases[i, ]
  x <- chains(k[1], k[2], k[3], k[4], k[5])
  out <- rbind(out, data.frame(draws = k[1], chains = k[2], carry = k[3], shift = k[4],
                               scale = k[5], r_hat = rhat(x), bulk = ess_bulk(x),
                               tail = ess_tail(x)))
}
write.csv(format(out, digits = 15), "diagnostics.csv", row.names = FALSE, quote = FALSE)
