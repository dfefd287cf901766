# Least squares of 30 responses on 8 terms with lm and lm.fit, and every cut of every level with lm and predict.
#
# Usage: Rscript regression.R FOLDER ROUNDS. Reads x.bin and y.bin (100,000 rows, column by column), model.csv,
# columns.csv, conformation.bin, fat.bin, cold_kg.bin; writes r-coefficients.bin and r-kg.bin to be compared, and prints
# nanoseconds a row as JSON.
arguments <- commandArgs(trailingOnly = TRUE)
folder <- arguments[1]
rounds <- as.integer(arguments[2])
path <- function(name) file.path(folder, name)
numbers <- function(name, n) readBin(path(name), "double", n, size = 8, endian = "little")

rows <- 100000
x <- matrix(numbers("x.bin", rows * 8), rows, 8)
y <- matrix(numbers("y.bin", rows * 30), rows, 30)
frame <- as.data.frame(x[, -1])
nanoseconds <- function(work, per) {
    work()
    sapply(seq_len(rounds), function(i) {
        gc(FALSE)
        started <- Sys.time()
        work()
        as.numeric(difftime(Sys.time(), started, units = "secs")) * 1e9 / per
    })
}
fit <- lm(y ~ ., data = frame)
writeBin(as.vector(coef(fit)), path("r-coefficients.bin"), endian = "little")

# predict: each breakdown is fitted to its own values, which gives its coefficients back
model <- read.csv(path("model.csv"), check.names = FALSE, stringsAsFactors = FALSE)
columns <- read.csv(path("columns.csv"), stringsAsFactors = FALSE)
terms <- names(model)[-(1:3)]
design <- function(c, f, w) {
    frame <- data.frame(c = c - 8, f = f - 8, w = (w - 340) / 100)
    for (term in terms[-(1:4)]) {
        part <- strsplit(term, "_")[[1]]
        value <- if (part[1] == "fat") f else c
        knot <- as.numeric(part[3])
        frame[[term]] <- pmax(0, if (part[2] == "below") knot - value else value - knot)
    }
    frame
}
grid <- expand.grid(c = 1:18, f = 1:15, w = c(200, 340, 500))
known <- design(grid$c, grid$f, grid$w)
fits <- lapply(split(model, paste(model$level, model$parent)), function(step) {
    values <- as.matrix(cbind(1, known)) %*% t(as.matrix(step[, terms]))
    list(cuts = step$cut, fit = lm(values ~ ., data = known))
})
n <- 100000
conformation <- readBin(path("conformation.bin"), "integer", n, size = 1)
fat <- readBin(path("fat.bin"), "integer", n, size = 1)
cold <- numbers("cold_kg.bin", n)
estimate <- function() {
    out <- matrix(0, n, nrow(columns))
    carcasses <- design(conformation, fat, cold)
    standing <- list(carcass = cold)
    for (level in unique(columns$level)) {
        following <- list()
        add <- function(cut, kg) {
            following[[cut]] <<- if (is.null(following[[cut]])) kg else following[[cut]] + kg
        }
        for (parent in names(standing)) {
            step <- fits[[paste(level, parent)]]
            if (is.null(step)) {
                add(parent, standing[[parent]])
            } else {
                shares <- predict(step$fit, carcasses)
                for (k in seq_along(step$cuts)) add(step$cuts[k], standing[[parent]] * shares[, k])
            }
        }
        for (cut in names(following)) {
            out[, which(columns$level == level & columns$cut == cut)] <- following[[cut]]
        }
        standing <- following
    }
    out
}
writeBin(as.vector(t(estimate()[1:1000, ])), path("r-kg.bin"), endian = "little")

json <- function(values) paste0("[", paste(format(values, digits = 8), collapse = ", "), "]")
cat(sprintf('{"version": "R %s.%s", "lm": %s, "lm.fit": %s, "columns": %s}\n',
    R.version$major, R.version$minor,
    json(nanoseconds(function() lm(y ~ ., data = frame), rows)),
    json(nanoseconds(function() lm.fit(x, y), rows)),
    json(nanoseconds(estimate, n))))
