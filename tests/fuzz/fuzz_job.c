/* libFuzzer's entry: any bytes as a job file. Built with -DFETTLE_FUZZ=ON (clang); begin from the jobs of the tests:
   fuzz_job -max_len=8192 CORPUS tests/job/jobs tests/golden/diag/… */
#include "job.h"

#include <stddef.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    struct diags diags = {0};
    struct text said = {0};
    struct job job;
    job_read_text("fuzz.yaml", (const char *)bytes, size, &diags, &job);
    for (size_t i = 0; i < diags.count; i++)
        diag_print(&diags, &diags.list[i], &said);
    text_free(&said);
    job_free(&job);
    diags_free(&diags);
    return 0;
}
