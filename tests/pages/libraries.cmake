# libyaml judges whether a printed job is still the same job; the PDF stage makes the files that are read back.
fettle_test_uses(test_source PkgConfig::YAML stage_pdf)
fettle_test_uses(test_sample stage_pdf)
