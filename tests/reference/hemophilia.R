# Carriers of a bleeding disorder told from others by logistic regression on two marks: R's glm on
# twenty random halves of 75 women, written to hemophilia_logistic.csv. Run from this folder:
# Rscript hemophilia.R
#
# hemophilia.csv: log10 of the activity and of the antigen of a clotting factor of 30 women who are
# no carriers and 45 who are, from Habbema, Hermans and van den Broek 1974, COMPSTAT, Physica Verlag,
# pages 101-110, as typed out by the R package rrcov (1.7-2, data set "hemophilia"). Not the women of
# Bouma et al. 1975, whose means and covariances another check has.

source("halves.R")

women <- read.csv("hemophilia.csv")
units <- round(1e4 * women[, c("activity", "antigen")])
pairs <- list(ratio = data.frame(m1 = thirds(units$antigen - units$activity),
                                 m2 = thirds(units$antigen)),
              plain = data.frame(m1 = thirds(units$activity), m2 = thirds(units$antigen)))
halves <- halves_of(75, 38, 20)
written(do.call(rbind, lapply(names(pairs), function(pair) {
  predicted(pair, pairs[[pair]], women$carrier, halves)
})), "hemophilia_logistic.csv")
