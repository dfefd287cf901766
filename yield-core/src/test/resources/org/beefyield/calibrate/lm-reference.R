# Writes four invented trials and what R's multi-response lm makes of them:
#   Rscript lm-reference.R
# in this folder. The trials are drawn with a fixed seed; weights are kg to 10 g.

options(digits = 17)
set.seed(20261104, kind = "Mersenne-Twister", normal.kind = "Inversion", sample.kind = "Rejection")

draw <- function(n, conformation, fat) {
  c <- sample(conformation, n, replace = TRUE)
  f <- sample(fat, n, replace = TRUE)
  w <- round(runif(n, 250, 430), 1)
  lean <- rnorm(n, 0, 18)
  frame <- rnorm(n, 0, 8)
  meat <- 690 + 9 * (c - 8) - 8 * (f - 8) + 4 * (w - 340) / 100 + lean - frame
  fat.trim <- 120 - 2 * (c - 8) + 10 * (f - 8) - lean
  bone <- 182 - 7 * (c - 8) - 2 * (f - 8) - 5 * (w - 340) / 100 + frame
  weight <- round(runif(n, 0.5, 2), 2)
  data.frame(id = paste0("T-", seq_len(n)), conformation = c, fat = f, cold_weight_kg = w, weight = weight,
             meat = round(meat * w / 1000, 2), fat.trim = round(fat.trim * w / 1000, 2),
             bone = round(bone * w / 1000, 2))
}

# g per kg of carcass, what is missing being the loss
shares <- function(d) {
  loss <- d$cold_weight_kg - d$meat - d$fat.trim - d$bone
  1000 * cbind(meat = d$meat, fat.trim = d$fat.trim, bone = d$bone, loss = loss) / d$cold_weight_kg
}

reference <- function(name, d, formula, weights = rep(1, nrow(d)), known.slope = c(0, 0, 0, 0)) {
  write.csv(d, paste0("lm-", name, ".csv"), row.names = FALSE, quote = FALSE)
  x <- data.frame(c = d$conformation - 8, f = d$fat - 8, w = (d$cold_weight_kg - 340) / 100,
                  fat_below_3 = pmax(0, 3 - d$fat), conformation_above_15 = pmax(0, d$conformation - 15))
  x$y <- shares(d)
  x$weights <- weights
  # a slope on fat that is known beforehand and not fitted
  x$known <- x$f %o% known.slope
  fit <- lm(formula, data = x, weights = weights, offset = known)
  rows <- NULL
  for (s in names(summary(fit))) {
    cut <- sub("Response ", "", s)
    one <- summary(fit)[[s]]
    k <- one$coefficients
    rows <- rbind(rows, data.frame(
      cut = cut, what = c(rownames(k), paste0("se ", rownames(k)), "r2", "sigma"),
      value = c(k[, 1], k[, 2], one$r.squared, one$sigma)))
  }
  e <- residuals(fit)
  covariance <- crossprod(e * sqrt(weights)) / fit$df.residual
  rows <- rbind(rows, data.frame(cut = "meat", what = "covariance with fat.trim", value = covariance[1, 2]))
  one <- lm(update(formula, y[, "meat"] ~ .), data = x, weights = weights, offset = known[, 1])
  h <- hatvalues(one)
  rows <- rbind(rows, data.frame(cut = "meat", what = "leverage of the first", value = h[1]))
  rows <- rbind(rows, data.frame(cut = "meat", what = "rstudent of the first",
    value = rstudent(one)[1]))
  rows <- rbind(rows, data.frame(cut = "meat", what = "leave one out",
    value = sqrt(sum(weights * (e[, "meat"] / (1 - h))^2) / sum(weights))))
  out <- paste0("lm-", name, "-expected.csv")
  writeLines(c(paste0("# ", R.version.string, ", lm-reference.R"), "cut,what,value"), out)
  write.table(data.frame(rows$cut, rows$what, sprintf("%.17g", rows$value)), out, append = TRUE, sep = ",",
              row.names = FALSE, col.names = FALSE, quote = FALSE)
}

reference("plain", draw(60, 5:12, 4:12), y ~ c + f + w)
reference("terms", draw(150, 3:17, 1:13),
          y ~ c + f + w + fat_below_3 + conformation_above_15 + I(c * f) + I(f * w))
few <- draw(14, 6:10, 5:10)
reference("weighted", few, y ~ c + f + w, few$weight)
reference("offset", draw(80, 5:12, 4:12), y ~ c + w, known.slope = c(-9, 11, -2, 0))
