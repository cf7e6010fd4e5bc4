# An independent fit of the Baranyi-Roberts law to a published growth curve (growthcurve1 of the R package
# nlsMicrobio), by R's nls; prints the coefficients.
t <- c(0, 2, 4, 6, 8, 10, 12, 16, 20, 24)
L <- c(3.62, 3.63, 4.14, 5.23, 6.27, 7.57, 8.38, 8.70, 8.62, 8.44)
law <- function(t, lag, mu, L0, Lm)
  Lm + log10((-1 + exp(mu * lag) + exp(mu * t)) / (exp(mu * t) - 1 + exp(mu * lag) * 10^(Lm - L0)))
fit <- nls(L ~ law(t, lag, mu, L0, Lm), start = list(lag = 3.4, mu = 1.4, L0 = 3.6, Lm = 8.6),
           control = nls.control(tol = 1e-7, maxiter = 500, minFactor = 1e-10))
cat(sprintf("%.10f", c(coef(fit), deviance(fit))), "\n")
