fettle_test_uses(test_pdf Threads::Threads)
