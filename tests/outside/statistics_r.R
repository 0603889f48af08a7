# Reads tables, one a line: an id, a kind, numbers. Prints "id name value" for what R itself finds, with its own tests
# and models where it has them (t.test, lm, binom.test, prop.test, aov, glm) and numerical integration and derivatives
# where it has none. Shares no code and, where it can, no formula with the program.
say <- function(id, name, value) cat(id, name, sprintf("%.12g", value), "\n")

agreement <- function(id, v) {
  n <- length(v) / 2; truth <- v[1:n]; typed <- v[(n + 1):(2 * n)]; d <- typed - truth
  t <- t.test(d)
  say(id, "bias", t$estimate); say(id, "bias_low", t$conf.int[1]); say(id, "bias_high", t$conf.int[2])
  say(id, "sd", sd(d)); say(id, "rmse", sqrt(mean(d^2))); say(id, "size", mean(abs(d)))
  m <- cov(cbind(truth, typed)) * (n - 1) / n
  say(id, "concordance", 2 * m[1, 2] / (m[1, 1] + m[2, 2] + (mean(truth) - mean(typed))^2))
  say(id, "high", mean(d) + qnorm(.975) * sd(d))
  for (p in c(.025, .975)) {
    k <- uniroot(function(k) pt(k * sqrt(n), n - 1, qnorm(.975) * sqrt(n)) - p, c(.01, 100), tol = 1e-13)$root
    say(id, paste0("single_", p), k)
    half <- function(a) uniroot(function(r) pnorm(a + r) - pnorm(a - r) - .95, c(0, abs(a) + 5), tol = 1e-14)$root
    holds <- function(k) integrate(Vectorize(function(u) dnorm(u) *
      pchisq((n - 1) * (half(u / sqrt(n)) / k)^2, n - 1, lower.tail = FALSE)), -9, 9, rel.tol = 1e-11)$value
    say(id, paste0("pair_", p), uniroot(function(k) holds(k) - p, c(.3, 30), tol = 1e-11)$root)
  }
  f <- summary(lm(d ~ truth))$coefficients
  say(id, "slope", f[2, 1]); say(id, "slope_error", f[2, 2]); say(id, "intercept", f[1, 1])
}

kappa <- function(id, v) {
  k <- sqrt(length(v)); p <- matrix(v, k, byrow = TRUE) / sum(v); n <- sum(v)
  apart <- abs(outer(1:k, 1:k, "-")) / (k - 1)
  for (name in c("none", "linear", "quadratic")) {
    w <- switch(name, none = diag(k), linear = 1 - apart, quadratic = 1 - apart^2)
    value <- function(q) { e <- sum(w * outer(rowSums(q), colSums(q))); (sum(w * q) - e) / (1 - e) }
    say(id, name, value(p))
    # Delta method with derivatives by central differences: Var = (E[g^2] - E[g]^2) / n over the cells.
    g <- p
    for (i in seq_along(p)) { up <- p; dn <- p; up[i] <- p[i] + 1e-5; dn[i] <- p[i] - 1e-5
      g[i] <- (value(up) - value(dn)) / 2e-5 }
    say(id, paste0(name, "_error"), sqrt((sum(p * g^2) - sum(p * g)^2) / n))
  }
}

shares <- function(id, v) {
  b <- binom.test(v[1], v[2])$conf.int; say(id, "exact_low", b[1]); say(id, "exact_high", b[2])
  say(id, "at_least", binom.test(v[1], v[2], alternative = "greater")$conf.int[1])
  w <- prop.test(v[1], v[2], correct = FALSE)$conf.int; x <- prop.test(v[3], v[4], correct = FALSE)$conf.int
  say(id, "wilson_low", w[1]); say(id, "wilson_high", w[2])
  p <- v[1] / v[2]; q <- v[3] / v[4]
  say(id, "newcombe_low", p - q - sqrt((p - w[1])^2 + (x[2] - q)^2))
  say(id, "newcombe_high", p - q + sqrt((w[2] - p)^2 + (q - x[1])^2))
  if (v[1] + v[3] > 0) say(id, "mcnemar", binom.test(v[1], v[1] + v[3])$p.value)
  say(id, "passes", pbinom(v[1] - 1, v[2], .83, lower.tail = FALSE))
}

icc <- function(id, v) {
  n <- v[1]; k <- v[2]; x <- v[-(1:2)]
  d <- data.frame(x = x, row = gl(n, k), column = gl(k, 1, n * k))
  m <- summary(aov(x ~ row + column, d))[[1]][["Mean Sq"]]
  r <- (m[1] - m[3]) / (m[1] + (k - 1) * m[3] + k * (m[2] - m[3]) / n)
  say(id, "agreement", r); say(id, "consistency", (m[1] - m[3]) / (m[1] + (k - 1) * m[3]))
  say(id, "error", sqrt(m[3] + max(0, (m[2] - m[3]) / n)))
  if (r > 0) {
    a <- k * r / (n * (1 - r)); b <- 1 + k * r * (n - 1) / (n * (1 - r))
    nu <- (a * m[2] + b * m[3])^2 / ((a * m[2])^2 / (k - 1) + (b * m[3])^2 / ((n - 1) * (k - 1)))
    f <- qf(.975, n - 1, nu); g <- qf(.975, nu, n - 1)
    say(id, "low", n * (m[1] - f * m[3]) / (f * (k * m[2] + (k * n - k - n) * m[3]) + n * m[1]))
    say(id, "high", n * (g * m[1] - m[3]) / (k * m[2] + (k * n - k - n) * m[3] + n * g * m[1]))
  }
}

answers <- function(id, v) {
  n <- v[1]; k <- v[2]; x <- matrix(v[-(1:2)], n, byrow = TRUE); t <- rowSums(x)
  if (var(t) > 0) {
    a <- k / (k - 1) * (1 - sum(apply(x, 2, var)) / var(t))
    say(id, "alpha", a)
    say(id, "feldt_low", 1 - (1 - a) * qf(.975, n - 1, (n - 1) * (k - 1)))
    say(id, "bonett_low", 1 - exp(log(1 - a) + qnorm(.975) * sqrt(2 * k / ((k - 1) * (n - 2)))))
  }
  for (i in 1:k) if (var(x[, i]) > 0 && var(t - x[, i]) > 0) say(id, paste0("rest_", i), cor(x[, i], t - x[, i]))
  # Conditional likelihood by summing over every pattern of each score: no symmetric functions. Newton.
  keep <- t > 0 & t < k; y <- x[keep, , drop = FALSE]
  s <- colSums(y)
  if (nrow(y) > 20 && all(s > 3 & s < nrow(y) - 3)) {
    patterns <- as.matrix(expand.grid(rep(list(0:1), k))); score <- rowSums(patterns)
    b <- log((nrow(y) - s) / s); step <- 1
    for (round in 1:60) {
      b <- b - mean(b); mean_right <- rep(0, k); spread <- matrix(0, k, k)
      for (r in 1:(k - 1)) {
        of <- patterns[score == r, , drop = FALSE]; w <- as.vector(exp(-of %*% b)); w <- w / sum(w)
        m <- as.vector(w %*% of); persons <- sum(rowSums(y) == r)
        mean_right <- mean_right + persons * m
        spread <- spread + persons * (t(of) %*% (w * of) - outer(m, m))
      }
      step <- solve(spread + 1, mean_right - s)
      b <- b + step
      if (max(abs(step)) < 1e-12) break
    }
    b <- b - mean(b)
    if (max(abs(step)) < 1e-9) for (i in 1:k) say(id, paste0("rasch_", i), b[i])
  }
}

passing <- function(id, v) {
  f <- summary(glm(v ~ log(seq_along(v)), family = binomial, control = list(epsilon = 1e-14, maxit = 100)))$coefficients
  say(id, "b0", f[1, 1]); say(id, "b1", f[2, 1]); say(id, "b1_error", f[2, 2]); say(id, "b1_p", f[2, 4])
}

kinds <- list(agreement = agreement, kappa = kappa, shares = shares, icc = icc, answers = answers, passing = passing)
for (line in readLines(commandArgs(trailingOnly = TRUE)[1])[-1]) {
  cell <- strsplit(line, " ")[[1]]
  kinds[[cell[2]]](cell[1], as.numeric(cell[-(1:2)]))
}
