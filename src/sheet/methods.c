/* The table of test methods as the sheets know them. */
#include "sheet/methods.h"

static const struct sheet_method *const methods[METHODS] = {
    [METHOD_FIVE_CUT] = &sheet_method_five_cut,
};

const struct sheet_method *sheet_method(enum method method)
{
    return methods[method];
}
