# Runs demo_jags.bug: Rscript demo_jags.R MODEL DATA OUT BATCHES; called by demo_jags.py.
# Writes kind,animal,locus,genotype,mean,error: the share of draws with a genotype and its Monte
# Carlo standard error by batch means (Geyer 1992, Statistical Science 7:473).
suppressMessages(library(rjags))
arguments <- commandArgs(trailingOnly = TRUE)
source(arguments[2])
batches <- as.integer(arguments[4])
draws <- 2000
chain <- function(seed) {
  start <- c(inits, list(.RNG.name = "base::Mersenne-Twister", .RNG.seed = seed))
  jags.model(arguments[1], data, start, n.chains = 1, n.adapt = 500, quiet = TRUE)
}
set.seed(1)
kinds <- c("founder", "hatchling")
share <- lapply(kinds, function(kind) list())
names(share) <- kinds
for (seed in 1:4) {
  model <- chain(seed)
  update(model, 2000, progress.bar = "none")
  for (batch in seq_len(batches / 4)) {
    drawn <- jags.samples(model, kinds, n.iter = draws, thin = 2, progress.bar = "none")
    for (kind in kinds) {
      values <- unclass(drawn[[kind]])[, , , 1]
      counted <- sapply(1:3, function(g) apply(values == g, c(1, 2), mean), simplify = "array")
      share[[kind]][[length(share[[kind]]) + 1]] <- counted
    }
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
