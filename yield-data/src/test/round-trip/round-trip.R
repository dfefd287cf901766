# Reads every CSV file of a table's folder with base R, types guessed as R guesses them, and writes it again.
# Usage: Rscript round-trip.R FOLDER
folder <- commandArgs(trailingOnly = TRUE)[1]
for (file in list.files(folder, pattern = "[.]csv$", full.names = TRUE)) {
  rows <- read.csv(file, check.names = FALSE, na.strings = "", encoding = "UTF-8")
  write.csv(rows, file, row.names = FALSE, na = "", fileEncoding = "UTF-8")
}
