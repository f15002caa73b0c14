fettle_test_uses(test_results_cutting PkgConfig::CJSON)
