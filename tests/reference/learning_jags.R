# Runs learning_jags.bug: Rscript learning_jags.R MODEL DATA OUT BATCHES; called by learning_jags.py.
# Writes name,mean,error,low,high: posterior mean, its Monte Carlo standard error by batch means
# (Geyer 1992), and the central 95 %.
suppressMessages(library(rjags))
arguments <- commandArgs(trailingOnly = TRUE)
source(arguments[2])
batches <- as.integer(arguments[4])
names <- c("q", "sure", "fleck", "thread")
draws <- list()
for (seed in 1:4) {
  start <- c(inits, list(.RNG.name = "base::Mersenne-Twister", .RNG.seed = seed))
  model <- jags.model(arguments[1], data, start, n.chains = 1, n.adapt = 1000, quiet = TRUE)
  update(model, 5000, progress.bar = "none")
  for (batch in seq_len(batches / 4)) {
    drawn <- coda.samples(model, names, n.iter = 20000, thin = 10, progress.bar = "none")
    draws[[length(draws) + 1]] <- as.matrix(drawn[[1]])
  }
}
means <- sapply(draws, colMeans)
all <- do.call(rbind, draws)
lines <- sapply(colnames(all), function(name) {
  ends <- quantile(all[, name], c(0.025, 0.975))
  sprintf("%s,%.6f,%.6f,%.6f,%.6f", gsub(",", " ", name), mean(all[, name]),
          sd(means[name, ]) / sqrt(ncol(means)), ends[1], ends[2])
})
writeLines(c("name,mean,error,low,high", lines), arguments[3])
