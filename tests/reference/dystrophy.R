# Carriers of a muscle disease told from others by logistic regression on four marks in blood: R's glm
# on twenty random halves of 194 women, written to dystrophy_logistic.csv. Run from this folder:
# Rscript dystrophy.R
#
# dystrophy.csv: creatine kinase, hemopexin, pyruvate kinase and lactate dehydrogenase in the serum of
# 127 samples of women who are no carriers and 67 of women who are (Percy et al. 1982, American Journal of
# Medical Genetics 13:27; Andrews and Herzberg 1985, Data, Springer, table 38.1). Typed out from a public
# copy of that open data set; neither page was read. The 15 samples that lack a number are left out.
source("halves.R")

women <- read.csv("dystrophy.csv")
marks <- data.frame(lapply(women[, c("ck", "h", "pk", "ld")], thirds))
halves <- halves_of(nrow(women), 97, 20)
written(predicted("thirds", marks, women$carrier, halves), "dystrophy_logistic.csv")
