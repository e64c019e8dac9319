# Kinship of pedigrees that other tests use, by the tabular method (Henderson 1976) in R, autosomal,
# of an X and of a Z: the loop of cousins that the manual of kinship2 prints, every mating of Wright's
# list (1922), twenty generations of full sibs, eight backcrosses to one sire, and the demo with its
# clutch of mixed sires. Written to kinship_named_pedigrees.csv, the coefficients above 0 to
# kinship_named.csv. Run from this folder, with jsonlite for the demo: Rscript kinship_named.R

# Text of lines "animal sex dam sire"; founders have no parents.
from_text <- function(name, text) {
  rows <- read.table(text = text, fill = TRUE, col.names = c("animal", "sex", "dam", "sires"),
                     colClasses = "character", stringsAsFactors = FALSE)
  rows[rows == "-" | is.na(rows)] <- ""
  hatched <- rows$dam != ""
  data.frame(pedigree = name, animal = rows$animal,
             sex = c(f = "female", m = "male", u = "")[rows$sex],
             clutch = ifelse(hatched, paste0("C-", rows$animal), ""), dam = rows$dam,
             sires = rows$sires, shares = ifelse(hatched, "1", ""),
             paternity = ifelse(hatched, "single", ""))
}

# Two founders D and S, and more relatives up to a pair; Y is the young of that pair.
mating <- function(name, relatives) from_text(name, paste("D f\nS m", relatives, sep = "\n"))
sibs <- "her f D S\nhis m D S"
cousins <- "a f D S\nb m D S\nm m\nf f\nher f a m\nhis m f b"
named <- list(
  from_text("cousin loop", "1 m\n2 f\n3 m 2 1\n4 f 2 1\n5 f\n6 m\n7 f 5 3\n8 m 4 6\n9 m 4 6\n10 f 7 8"),
  mating("full sibs", paste0(sibs, "\nY u her his")),
  mating("parent and offspring", "his m D S\nY u D his"),
  mating("half sibs", "E f\nher f D S\nhis m E S\nY u her his"),
  mating("grandparent and grandchild", "a f D S\nm m\nher f a m\nY u her S"),
  mating("uncle and niece", "his m D S\na f D S\nm m\nher f a m\nY u her his"),
  mating("half uncle and niece", "E f\nhis m E S\na f D S\nm m\nher f a m\nY u her his"),
  mating("double first cousins",
         "E f\nT m\na f D S\nb m D S\nc f E T\nd m E T\nher f a d\nhis m c b\nY u her his"),
  mating("first cousins", paste0(cousins, "\nY u her his")),
  mating("first cousins once removed", paste0(cousins, "\nn m\nnext f her n\nY u next his")),
  mating("half first cousins",
         "E f\na f D S\nb m E S\nm m\nf f\nher f a m\nhis m f b\nY u her his"),
  mating("second cousins", paste0(cousins, "\nn m\ng f\nmore f her n\nless m g his\nY u more less")),
  mating("twenty generations of sibs",
         paste(sprintf("d%d f %s\ns%d m %s", 1:20, c("D S", sprintf("d%d s%d", 1:19, 1:19)), 1:20,
                       c("D S", sprintf("d%d s%d", 1:19, 1:19))), collapse = "\n")),
  mating("eight backcrosses",
         paste(sprintf("x%d f %s S", 1:8, c("D", sprintf("x%d", 1:7))), collapse = "\n")))

# Parents first: the demo's animals stand in that order.
demo <- function() {
  colony <- jsonlite::fromJSON("../../models/demo/colony.json", simplifyVector = FALSE)
  clutches <- setNames(colony$clutches, vapply(colony$clutches, function(c) c$id, ""))
  text <- function(x) if (is.null(x)) "" else as.character(x)
  do.call(rbind, lapply(colony$animals, function(a) {
    clutch <- if (is.null(a$clutch)) NULL else clutches[[a$clutch]]
    each <- function(f) paste(vapply(clutch$sires, function(s) f(s), ""), collapse = " ")
    data.frame(pedigree = "demo", animal = a$id, sex = text(a$sex), clutch = text(a$clutch),
               dam = text(clutch$dam), sires = each(function(s) s$id),
               shares = each(function(s) as.character(s$share)), paternity = text(clutch$paternity))
  }))
}

# Each young of a mixed clutch has a sire of its own, whatever else is known of those before it: so
# the expected row is the mean of the rows of the candidates, by their shares. So is that of an
# unknown sex, one half each.
tabular <- function(rows, chromosome) {
  stopifnot(!(rows$paternity == "single" & grepl(" ", rows$sires)))
  k <- matrix(0, nrow(rows), nrow(rows), dimnames = list(rows$animal, rows$animal))
  one_copy <- switch(chromosome, autosome = "none", X = "male", Z = "female")
  for (i in seq_len(nrow(rows))) {
    single <- if (one_copy == "none") 0 else if (rows$sex[i] == "") 0.5 else rows$sex[i] == one_copy
    k[i, i] <- single + (1 - single) / 2
    if (rows$dam[i] == "") next
    older <- seq_len(i - 1)
    sires <- strsplit(rows$sires[i], " ")[[1]]
    shares <- as.numeric(strsplit(rows$shares[i], " ")[[1]])
    from_dam <- k[rows$dam[i], older]
    from_sire <- colSums(shares / sum(shares) * k[sires, older, drop = FALSE])
    giver <- if (chromosome == "X") from_dam else from_sire
    k[i, older] <- k[older, i] <- single * giver + (1 - single) * (from_dam + from_sire) / 2
    k[i, i] <- k[i, i] + (1 - single) * from_sire[rows$dam[i]] / 2
  }
  k
}

pedigrees <- c(named, list(demo()))
write.csv(do.call(rbind, pedigrees), "kinship_named_pedigrees.csv", row.names = FALSE, quote = FALSE)
out <- do.call(rbind, lapply(pedigrees, function(rows) {
  k <- lapply(c("autosome", "X", "Z"), function(on) tabular(rows, on))
  at <- which(lower.tri(k[[1]], diag = TRUE) & (k[[1]] > 0 | k[[2]] > 0 | k[[3]] > 0), arr.ind = TRUE)
  written <- function(m) vapply(m[at], format, "", digits = 17)
  data.frame(pedigree = rows$pedigree[1], one = rows$animal[at[, 1]], other = rows$animal[at[, 2]],
             autosome = written(k[[1]]), X = written(k[[2]]), Z = written(k[[3]]))
}))
write.csv(out, "kinship_named.csv", row.names = FALSE, quote = FALSE)
