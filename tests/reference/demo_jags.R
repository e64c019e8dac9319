# Runs demo_jags.bug: Rscript demo_jags.R MODEL DATA OUT BATCHES; called by demo_jags.py.
# Writes kind,animal,locus,genotype,mean,error: the mean probability of a genotype over the draws and
# its Monte Carlo standard error by batch means (Geyer 1992, Statistical Science 7:473).
suppressMessages(library(rjags))
arguments <- commandArgs(trailingOnly = TRUE)
source(arguments[2])
batches <- as.integer(arguments[4])
draws <- 1000
chains <- 4
kinds <- c("parent", "hatchling")
share <- list(parent = list(), hatchling = list())
for (seed in seq_len(chains)) {
  start <- c(inits, list(.RNG.name = "base::Mersenne-Twister", .RNG.seed = seed))
  model <- jags.model(arguments[1], data, start, n.chains = 1, n.adapt = 200, quiet = TRUE)
  update(model, 500, progress.bar = "none")
  for (batch in seq_len(batches / chains)) {
    drawn <- jags.samples(model, kinds, n.iter = draws, progress.bar = "none")
    values <- unclass(drawn$parent)[, , , 1]
    counted <- sapply(1:3, function(g) apply(values == g, c(1, 2), mean), simplify = "array")
    share$parent[[length(share$parent) + 1]] <- counted
    averaged <- apply(unclass(drawn$hatchling)[, , , , 1], 1:3, mean)
    share$hatchling[[length(share$hatchling) + 1]] <- averaged
  }
}
lines <- character()
for (kind in kinds) {
  all <- simplify2array(share[[kind]])
  means <- apply(all, 1:3, mean)
  errors <- apply(all, 1:3, sd) / sqrt(dim(all)[4])
  for (i in seq_len(dim(means)[1])) for (l in seq_len(dim(means)[2])) for (g in 1:3) {
    lines <- c(lines, sprintf("%s,%d,%d,%d,%.6g,%.3g", kind, i, l, g, means[i, l, g],
                              errors[i, l, g]))
  }
}
writeLines(lines, arguments[3])
