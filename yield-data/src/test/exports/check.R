# Reads an exported CSV file in R with the types that check.py found beside it, and holds every cell to what stands in the file.
arguments <- commandArgs(trailingOnly = TRUE)
types <- readLines(arguments[2])
stands <- read.csv(arguments[1], colClasses = "character", check.names = FALSE, na.strings = character(), encoding = "UTF-8")
classes <- ifelse(types == "date", "Date", ifelse(types %in% c("number", "integer"), "numeric", "character"))
# empty texts stay empty texts; empty days and numbers are missing
came <- read.csv(arguments[1], colClasses = ifelse(classes == "Date", "character", classes), check.names = FALSE, encoding = "UTF-8",
    na.strings = "")
problems <- character()
for (i in seq_along(types)) {
    column <- came[[i]]
    text <- stands[[i]]
    same <- switch(classes[i],
        Date = all(ifelse(is.na(column), "", format(as.Date(column, "%Y-%m-%d"))) == text),
        numeric = all(ifelse(is.na(column), text == "", column == suppressWarnings(as.numeric(text)))),
        all(ifelse(is.na(column), "", column) == text))
    if (!isTRUE(same)) problems <- c(problems, names(stands)[i])
}
cat(sprintf("  %s: %d rows in R\n", basename(arguments[1]), nrow(came)))
if (length(problems) > 0) {
    message("FAILED: ", arguments[1], ": otherwise in R: ", paste(problems, collapse = ", "))
    quit(status = 1)
}
