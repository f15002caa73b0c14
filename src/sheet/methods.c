/* The table of test methods as the sheets know them. */
#include "sheet/methods.h"

static const struct sheet_method *const methods[METHODS] = {
#define METHOD(id, prefix, name) [METHOD_##id] = &sheet_method_##prefix,
#include "job/methods.inc"
#undef METHOD
};

const struct sheet_method *sheet_method(enum method method)
{
    return methods[method];
}
