/* One case with everything kept: the sums of every flow and limit, and, if columns are given, a ledger. */
typedef struct
{
    double sums[23], withheld[35];
    int bound[15];
    unsigned now;
    double *columns[23], *import, *export, *load, *solar;
    unsigned long long *sites;
    int at;
} limit_book;

static const unsigned char limit_of_site[35] = {0, 1, 2, 3, 4, 5, 6, 7, 8, 4, 5, 7, 8, 9, 4, 5, 6, 10, 7, 4, 5, 6, 11, 12, 13, 4, 5, 6, 13, 9, 4, 5, 6, 13, 14};

static __attribute__((noinline)) void limit_bind(limit_book *book, int site, double kw)
{
    book->withheld[site] += kw;
    int limit = limit_of_site[site];
    if ((book->now >> limit & 1) == 0) book->bound[limit]++;
    book->now |= 1u << limit;
    if (book->sites) book->sites[book->at] |= 1ull << site;
}

#define KEEPS 1
#define BOOK_PARAMETER , limit_book *book, int ledger
#define FLOW(column, value) do { double v_ = (value); if (ledger) book->columns[column][book->at] = v_; if (column != 21) book->sums[column] += v_; } while (0)
#define CUT(site, value) do { double c_ = (value); if (c_ > 1e-11) limit_bind(book, site, c_); } while (0)
#define LIMIT(site, wanted, limit) ({ double w_ = (wanted), l_ = MIN(w_, MAX(0.0, limit)); CUT(site, w_ - l_); l_; })
#define LIMITS(wanted, least, chain) if (wanted > least) { chain }
#define CLOSE(unmet, sold, used, solar_) do { book->import[book->at] = unmet; book->export[book->at] = sold; book->load[book->at] = used; book->solar[book->at] = solar_; book->now = 0; book->at++; } while (0)
#define STEP NAME(fullstep)
#include "step.h"
#undef STEP
#undef KEEPS
#undef BOOK_PARAMETER
#undef FLOW
#undef CUT
#undef LIMIT
#undef LIMITS
#undef CLOSE

static __attribute__((noinline)) double limit_sums(const limit1_constants *p, const limit1_row *rows, const limit_series *s, double stored, limit_book *book)
{
    double import, export;
    for (int i = 0; i < s->count; i++) limit1_fullstep(p, &rows[s->picks[i]], s->load[i], s->dc[i], s->ac[i], &stored, &import, &export, book, 0);
    return stored;
}

static __attribute__((noinline)) double limit_ledger(const limit1_constants *p, const limit1_row *rows, const limit_series *s, double stored, limit_book *book)
{
    double import, export;
    for (int i = 0; i < s->count; i++) limit1_fullstep(p, &rows[s->picks[i]], s->load[i], s->dc[i], s->ac[i], &stored, &import, &export, book, 1);
    return stored;
}

/* Runs one case with every flow kept, from a stated energy; the ledger's columns and sites are cleared before. */
double limit_full(const limit_case *c, const limit_series *s, double stored, limit_book *book, int ledger)
{
    limit1_constants p;
    limit1_row rows[LIMIT_ROWS];
    limit1_prepare(&p, c, s->hours);
    for (int row = 0; row < s->rows; row++)
    {
        const limit_row *r = &c->rows[row];
        rows[row] = (limit1_row){r->floor, r->ceiling, r->gridCeiling, r->importTarget, r->sellDown, r->gridCeiling > c->lowest, r->sellDown < c->highest};
    }
    memset(book->sums, 0, sizeof book->sums);
    memset(book->withheld, 0, sizeof book->withheld);
    memset(book->bound, 0, sizeof book->bound);
    book->at = 0;
    book->now = 0;
    if (!ledger) return limit_sums(&p, rows, s, stored, book);
    for (int column = 0; column < 23; column++) memset(book->columns[column], 0, s->count * sizeof(double));
    memset(book->sites, 0, s->count * sizeof *book->sites);
    return limit_ledger(&p, rows, s, stored, book);
}
