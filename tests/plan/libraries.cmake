fettle_test_uses(test_steps stage_words) # its keys are looked up in the table of sentences
fettle_test_uses(test_plan_words stage_words)
fettle_test_uses(test_routing stage_words)
fettle_test_uses(test_needs stage_words)
