# Kinship by the tabular method (Henderson 1976) in R, autosomal, of an X and of a Z: random pedigrees
# with loops, unnamed parents and sires in doubt, written to kinship_pedigrees.csv, and their
# coefficients to kinship.csv. Doubt is averaged over every way it can fall out, one whole pedigree
# after the other. Run from this folder: Rscript kinship.R

# A linear congruential generator (Park and Miller 1988, minimal standard).
state <- 1976
uniform <- function() {
  state <<- (16807 * state) %% 2147483647
  state / 2147483647
}
one_of <- function(x) x[floor(uniform() * length(x)) + 1]

draw_pedigree <- function(number, clutches) {
  rows <- data.frame(pedigree = number, animal = paste0("F", 1:4),
                     sex = c("female", "male", "female", "male"), clutch = "", dam = "", sires = "",
                     shares = "", paternity = "")
  doubts <- 0
  for (k in seq_len(clutches)) {
    females <- rows$animal[rows$sex == "female"]
    males <- rows$animal[rows$sex == "male"]
    dam <- if (uniform() < 0.1) "" else one_of(females)
    sires <- if (uniform() < 0.1) character(0) else one_of(males)
    mixed <- uniform() < 0.5
    young <- floor(uniform() * 3) + 1
    if (length(sires) == 1 && uniform() < 0.4 && doubts + (if (mixed) young else 1) <= 5) {
      other <- setdiff(males, sires)
      sires <- c(sires, one_of(other))
      doubts <- doubts + (if (mixed) young else 1)
    }
    shares <- if (length(sires) > 1) c("0.75", "0.25") else rep("1", length(sires))
    for (y in seq_len(young)) {
      u <- uniform()
      rows <- rbind(rows, data.frame(
        pedigree = number, animal = paste0("A", k, "-", y),
        sex = if (u < 0.45) "female" else if (u < 0.9) "male" else "", clutch = paste0("C", k),
        dam = dam, sires = paste(sires, collapse = " "), shares = paste(shares, collapse = " "),
        paternity = if (mixed) "mixed" else "single"))
    }
  }
  rows
}

# One pedigree without doubt: parents are names, "" for none; of unnamed parents one a clutch.
tabular <- function(animal, sex, dam, sire, chromosome) {
  n <- length(animal)
  k <- matrix(0, n, n, dimnames = list(animal, animal))
  one_copy <- switch(chromosome, autosome = "", X = "male", Z = "female")
  for (i in seq_len(n)) {
    single <- sex[i] == one_copy && one_copy != ""
    if (dam[i] == "") {
      k[i, i] <- if (single) 1 else 0.5
      next
    }
    parents <- if (!single) c(dam[i], sire[i]) else if (chromosome == "X") dam[i] else sire[i]
    older <- seq_len(i - 1)
    k[i, older] <- k[older, i] <- colMeans(k[parents, older, drop = FALSE])
    k[i, i] <- if (single) 1 else (1 + k[dam[i], sire[i]]) / 2
  }
  k
}

# Unknown sexes are averaged over as well: an animal's own part of the state.
expected <- function(rows, chromosome) {
  hatched <- rows$clutch != ""
  unnamed <- unique(c(paste0("dam of ", rows$clutch[hatched & rows$dam == ""]),
                      paste0("sire of ", rows$clutch[hatched & rows$sires == ""])))
  unnamed <- unnamed[!grepl(" of $", unnamed)]
  animal <- c(unnamed, rows$animal)
  sex <- c(ifelse(grepl("^dam", unnamed), "female", "male"), rows$sex)
  dam <- c(rep("", length(unnamed)),
           ifelse(hatched & rows$dam == "", paste0("dam of ", rows$clutch), rows$dam))
  candidates <- c(rep("", length(unnamed)),
                  ifelse(hatched & rows$sires == "", paste0("sire of ", rows$clutch), ""))
  choices <- list()
  for (r in which(grepl(" ", rows$sires))) {
    key <- if (rows$paternity[r] == "single") rows$clutch[r] else rows$animal[r]
    choices[[key]] <- seq_along(strsplit(rows$sires[r], " ")[[1]])
  }
  open <- if (chromosome == "autosome") character(0) else rows$animal[rows$sex == ""]
  for (a in open) choices[[paste("sex", a)]] <- 1:2
  grid <- if (length(choices)) expand.grid(choices) else data.frame(row.names = 1)
  total <- 0
  for (g in seq_len(nrow(grid))) {
    weight <- 1
    sire <- candidates
    counted <- c()
    for (r in which(hatched & rows$sires != "")) {
      names <- strsplit(rows$sires[r], " ")[[1]]
      key <- if (rows$paternity[r] == "single") rows$clutch[r] else rows$animal[r]
      pick <- if (length(names) > 1) grid[g, key] else 1
      sire[length(unnamed) + r] <- names[pick]
      if (length(names) > 1 && !(key %in% counted)) {
        weight <- weight * as.numeric(strsplit(rows$shares[r], " ")[[1]][pick])
        counted <- c(counted, key)
      }
    }
    of_sex <- sex
    for (a in open) {
      of_sex[animal == a] <- c("female", "male")[grid[g, paste("sex", a)]]
      weight <- weight / 2
    }
    total <- total + weight * tabular(animal, of_sex, dam, sire, chromosome)
  }
  total[rows$animal, rows$animal]
}

pedigrees <- do.call(rbind, lapply(1:12, function(p) draw_pedigree(p, 2 + 2 * p %/% 2)))
write.csv(pedigrees, "kinship_pedigrees.csv", row.names = FALSE, quote = FALSE)
out <- data.frame()
for (p in unique(pedigrees$pedigree)) {
  rows <- pedigrees[pedigrees$pedigree == p, ]
  matrices <- lapply(c("autosome", "X", "Z"), function(on) expected(rows, on))
  for (i in seq_len(nrow(rows))) for (j in seq_len(i)) {
    out <- rbind(out, data.frame(pedigree = p, one = rows$animal[i], other = rows$animal[j],
                                 autosome = format(matrices[[1]][i, j], digits = 17),
                                 X = format(matrices[[2]][i, j], digits = 17),
                                 Z = format(matrices[[3]][i, j], digits = 17)))
  }
}
write.csv(out, "kinship.csv", row.names = FALSE, quote = FALSE)
