# R's library of distributions (Debian: r-mathlib) is what the program's own are compared with.
fettle_test_uses(test_statistics Rmath)
# The sentences that a proof asks for must be there.
fettle_test_uses(test_sayings stage_words)
