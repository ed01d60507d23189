/* What a width needs beside the step: its structures, its taper, and the loops. */
typedef struct
{
    V stepHours, lowest, highest, perUsable, chargeLimit, dischargeLimit, inverter, solarInput, standby, chargeEfficiency, perDischargeEfficiency,
        inverterEfficiency, perInverterEfficiency, rectifierEfficiency, perRectifierEfficiency, roomPerKwh, outPerKwh, breaker, through, import, relief,
        export, busbar, acOnBusbar, chargeFirst, dischargeFirst;
    V chargeAt[4], chargeBend[4], dischargeAt[4], dischargeBend[4];
    int tapers, chargePoints, dischargePoints;
} NAME(constants);

typedef struct
{
    V floor, ceiling, gridCeiling, importTarget, sellDown;
    int chargesFromGrid, sells;
} NAME(row);

static V NAME(taper)(V first, const V *at, const V *bend, int points, V share)
{
    V result = first;
    for (int i = 0; i < points; i++) result += MAX(ALL(0), share - at[i]) * bend[i];
    return MAX(ALL(0), result);
}

static void NAME(set)(V *value, int lane, double number) { ((double *)value)[lane] = number; }

static void NAME(prepare)(NAME(constants) *p, const limit_case *cases, double hours)
{
    *p = (NAME(constants)){0};
    for (int lane = 0; lane < WIDTH; lane++)
    {
        const limit_case *c = &cases[lane];
        double usable = c->highest - c->lowest;
#define SET(field, number) NAME(set)(&p->field, lane, number)
        SET(stepHours, hours);
        SET(lowest, c->lowest);
        SET(highest, c->highest);
        SET(perUsable, usable > 0 ? 1 / usable : 0);
        SET(chargeLimit, c->chargeLimit);
        SET(dischargeLimit, c->dischargeLimit * c->inverterEfficiency);
        SET(inverter, c->inverter);
        SET(solarInput, c->solarInput);
        SET(standby, c->standby);
        SET(chargeEfficiency, c->chargeEfficiency);
        SET(perDischargeEfficiency, 1 / c->dischargeEfficiency);
        SET(inverterEfficiency, c->inverterEfficiency);
        SET(perInverterEfficiency, 1 / c->inverterEfficiency);
        SET(rectifierEfficiency, c->rectifierEfficiency);
        SET(perRectifierEfficiency, 1 / c->rectifierEfficiency);
        SET(roomPerKwh, 1 / (c->chargeEfficiency * hours));
        SET(outPerKwh, c->dischargeEfficiency * c->inverterEfficiency / hours);
        SET(breaker, c->breaker);
        SET(through, c->inverter < c->breaker ? c->inverter : c->breaker);
        SET(import, c->import);
        SET(relief, c->relief);
        SET(export, c->export);
        SET(busbar, c->busbar);
        SET(acOnBusbar, c->acOnBusbar);
        SET(chargeFirst, 1);
        SET(dischargeFirst, 1);
    }
}

/* The loop that only bills need: import, export and what export is worth, by stretches of one bucket. GROUPS groups go side by side. */
#define KEEPS 0
#define BOOK_PARAMETER
#define FLOW(column, value)
#define CUT(site, value)
#define LIMIT(site, wanted, limit) MIN(wanted, MAX(ALL(0), limit))
#define LIMITS(wanted, least, chain) wanted = MIN(wanted, MAX(ALL(0), least));
#define CLOSE(unmet, sold, used, solar)
#define STEP NAME(step)
#include "step.h"
#undef STEP
#undef KEEPS
#undef BOOK_PARAMETER
#undef FLOW
#undef CUT
#undef LIMIT
#undef LIMITS
#undef CLOSE

static __attribute__((noinline)) void NAME(stretch)(
    const NAME(constants) *p, const NAME(row) *const *r, const limit_series *s, const V *factors, int from, int until, V *stored, V *sums)
{
    for (int i = from; i < until; i++)
        for (int g = 0; g < GROUPS; g++)
        {
            V import, export, *sum = sums + 3 * g;
            const V *f = factors + 3 * g;
            NAME(step)(&p[g], r[g], ALL(s->load[i]) * f[0], ALL(s->dc[i]) * f[1], ALL(s->ac[i]) * f[2], &stored[g], &import, &export);
            sum[0] += import;
            sum[1] += export;
            sum[2] += export * ALL(s->price[i]);
        }
}

void NAME(run)(const limit_case *cases, const limit_series *s, int from, double *endKwh, double *result)
{
    static __thread NAME(constants) p[GROUPS] __attribute__((aligned(64)));
    static __thread NAME(row) rows[GROUPS][LIMIT_ROWS] __attribute__((aligned(64)));
    V stored[GROUPS], factors[GROUPS * 3], sums[GROUPS * 3];
    const NAME(row) *now[GROUPS];
    for (int g = 0; g < GROUPS; g++)
    {
        NAME(prepare)(&p[g], cases + g * WIDTH, s->hours);
        for (int row = 0; row < s->rows; row++)
        {
            rows[g][row].chargesFromGrid = rows[g][row].sells = 0;
            for (int lane = 0; lane < WIDTH; lane++)
            {
                const limit_case *c = &cases[g * WIDTH + lane];
                const limit_row *r = &c->rows[row];
                NAME(set)(&rows[g][row].floor, lane, r->floor);
                NAME(set)(&rows[g][row].ceiling, lane, r->ceiling);
                NAME(set)(&rows[g][row].gridCeiling, lane, r->gridCeiling);
                NAME(set)(&rows[g][row].importTarget, lane, r->importTarget);
                NAME(set)(&rows[g][row].sellDown, lane, r->sellDown);
                rows[g][row].chargesFromGrid |= r->gridCeiling > c->lowest;
                rows[g][row].sells |= r->sellDown < c->highest;
            }
        }
        for (int lane = 0; lane < WIDTH; lane++)
        {
            const limit_case *c = &cases[g * WIDTH + lane];
            NAME(set)(&stored[g], lane, endKwh[g * WIDTH + lane]);
            for (int f = 0; f < 3; f++) NAME(set)(&factors[g * 3 + f], lane, c->factors[f]);
        }
    }
    int at = from, bucket = 0;
    while (s->bucketEnds[bucket] <= at) bucket++;
    for (int f = 0; f < GROUPS * 3; f++) sums[f] = ALL(0);
    while (at < s->count)
    {
        int end = at + 1, most = s->bucketEnds[bucket];
        while (end < most && s->picks[end] == s->picks[at]) end++;
        for (int g = 0; g < GROUPS; g++) now[g] = &rows[g][s->picks[at]];
        NAME(stretch)(p, now, s, factors, at, end, stored, sums);
        at = end;
        if (at < most) continue;
        for (int g = 0; g < GROUPS; g++)
            for (int f = 0; f < 3; f++)
                for (int lane = 0; lane < WIDTH; lane++)
                {
                    double *into = result + (g * WIDTH + lane) * s->results;
                    int where = f < 2 ? f * s->buckets + s->bucketOf[bucket] : 2 * s->buckets + s->billOf[bucket];
                    into[where] += ((double *)&sums[g * 3 + f])[lane] * s->hours;
                }
        for (int f = 0; f < GROUPS * 3; f++) sums[f] = ALL(0);
        bucket++;
    }
    for (int g = 0; g < GROUPS; g++)
        for (int lane = 0; lane < WIDTH; lane++) endKwh[g * WIDTH + lane] = ((double *)&stored[g])[lane];
}
