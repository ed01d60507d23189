/* The speed limit: the same physics as the C# step, written by hand in C, for comparison only. Compiled by the benchmark with
   gcc -O3 -march=native -ffp-contract=off; the results are compared with the C# run's, bit for bit. */
#include <immintrin.h>
#include <math.h>
#include <string.h>

#define LIMIT_ROWS 16

typedef struct { double floor, ceiling, gridCeiling, importTarget, sellDown; } limit_row;

typedef struct
{
    double lowest, highest, chargeLimit, dischargeLimit, chargeEfficiency, dischargeEfficiency, inverter, inverterEfficiency, rectifierEfficiency,
        solarInput, standby, breaker, import, relief, export, busbar, acOnBusbar, factors[3];
    limit_row rows[LIMIT_ROWS];
} limit_case;

typedef struct
{
    const double *load, *dc, *ac, *price;
    const int *picks, *bucketEnds, *bucketOf, *billOf;
    double hours;
    int count, rows, buckets, results;
} limit_series;

#define CLEAN(kw) ABOVE(kw, tiny, kw, zero)

/* One case. */
#define V double
#define WIDTH 1
#define GROUPS 1
#define NAME(name) limit1_##name
#define ALL(number) ((double)(number))
#define MIN(a, b) ({ double a_ = (a), b_ = (b); a_ < b_ ? a_ : b_; })
#define MAX(a, b) ({ double a_ = (a), b_ = (b); a_ > b_ ? a_ : b_; })
#define ABOVE(a, b, then, otherwise) ((a) > (b) ? (then) : (otherwise))
#define ANY(a, b) ((a) > (b))
#include "width.h"
#include "books.h"
#undef V
#undef WIDTH
#undef GROUPS
#undef NAME
#undef ALL
#undef MIN
#undef MAX
#undef ABOVE
#undef ANY

#ifdef __AVX512F__
/* Eight cases side by side, four groups. */
typedef double limit_v8 __attribute__((vector_size(64)));
#define V limit_v8
#define WIDTH 8
#define GROUPS 4
#define ALL(number) ((limit_v8)_mm512_set1_pd(number))
#define MIN(a, b) ((limit_v8)_mm512_min_pd(a, b))
#define MAX(a, b) ((limit_v8)_mm512_max_pd(a, b))
#define ABOVE(a, b, then, otherwise) ((limit_v8)_mm512_mask_blend_pd(_mm512_cmp_pd_mask(a, b, _CMP_GT_OQ), otherwise, then))
#define ANY(a, b) (_mm512_cmp_pd_mask(a, b, _CMP_GT_OQ) != 0)
#else
/* Four cases side by side, which is all that the registers hold; groups of them make eight and more. */
typedef double limit_v4 __attribute__((vector_size(32)));
#define V limit_v4
#define WIDTH 4
#define GROUPS 2
#define ALL(number) ((limit_v4)_mm256_set1_pd(number))
#define MIN(a, b) ((limit_v4)_mm256_min_pd(a, b))
#define MAX(a, b) ((limit_v4)_mm256_max_pd(a, b))
#define ABOVE(a, b, then, otherwise) ((limit_v4)_mm256_blendv_pd(otherwise, then, _mm256_cmp_pd(a, b, _CMP_GT_OQ)))
#define ANY(a, b) (_mm256_movemask_pd(_mm256_cmp_pd(a, b, _CMP_GT_OQ)) != 0)
#endif
#define NAME(name) limitN_##name
#include "width.h"

int limit_width(void) { return WIDTH * GROUPS; }
