/* The best plan of checks that there is, by exact search; see find_oracle.py, which builds and calls it.
 *
 * A state is a set of suspects, as two words of bits. What a state costs at least is kept for every
 * state that was met, and what it costs exactly once that is known. Three bounds:
 *   - every suspect must be told from each other one: a dual ascent of that covering problem;
 *   - a plan for a state is no cheaper than plans for the parts of any partition of it, summed;
 *   - a check costs its seconds for all that are left, and its parts at least what they cost.
 */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define MOST_ROWS 128
#define MOST_CHECKS 256
#define SLACK 1e-9

typedef struct { uint64_t low, high; } Set;

typedef struct {
    Set key;
    double least;
    double exact; /* below 0 until it is known */
    unsigned char used, firm; /* firm: bounded with more than the covering */
} Kept;

static int rows, checks, most_words;
static int classes[MOST_ROWS];
static double weights[MOST_ROWS], seconds[MOST_CHECKS];
static int answers[MOST_CHECKS];
static Set *parts[MOST_CHECKS];
static int order[MOST_ROWS][MOST_ROWS], others[MOST_ROWS];
static short *apart[MOST_ROWS][MOST_ROWS];
static int apart_count[MOST_ROWS][MOST_ROWS];
static double cheapest[MOST_ROWS][MOST_ROWS];

static Kept *table;
static uint64_t size, filled;
static long visits, most_visits;
static int gave_up;

static int is_empty(Set set) { return !(set.low | set.high); }
static int has(Set set, int row) {
    return (int)((row < 64 ? set.low >> row : set.high >> (row - 64)) & 1);
}
static Set both(Set one, Set other) {
    Set found = {one.low & other.low, one.high & other.high};
    return found;
}
static int same(Set one, Set other) { return one.low == other.low && one.high == other.high; }
static int first_of(Set set) {
    return set.low ? __builtin_ctzll(set.low) : 64 + __builtin_ctzll(set.high);
}
static Set without_first(Set set) {
    if (set.low) set.low &= set.low - 1;
    else set.high &= set.high - 1;
    return set;
}

static uint64_t place_of(Set key) {
    uint64_t mixed = key.low * 0x9E3779B97F4A7C15ULL ^ (key.high + 0x7F4A7C15ULL) * 0xC2B2AE3D27D4EB4FULL;
    mixed ^= mixed >> 29;
    mixed *= 0xBF58476D1CE4E5B9ULL;
    return mixed ^ mixed >> 32;
}

static void grow(void);
static double dearest(Set set);
static double cover(Set set);

static Kept *kept(Set key) {
    if (2 * filled >= size) grow();
    uint64_t place = place_of(key) & (size - 1);
    while (table[place].used && !same(table[place].key, key)) place = (place + 1) & (size - 1);
    Kept *found = &table[place];
    if (!found->used) {
        found->used = 1;
        found->firm = 0;
        found->key = key;
        found->exact = -1;
        found->least = dearest(key);
        if (found->least == 0) found->exact = 0;
        filled++;
    }
    return found;
}

static void grow(void) {
    Kept *old = table;
    uint64_t count = size;
    size = size ? 2 * size : 1 << 16;
    table = calloc(size, sizeof(Kept));
    for (uint64_t n = 0; n < count; n++) {
        if (!old[n].used) continue;
        uint64_t place = place_of(old[n].key) & (size - 1);
        while (table[place].used) place = (place + 1) & (size - 1);
        table[place] = old[n];
    }
    free(old);
}

static double least_of(Set set) {
    Kept *found = kept(set);
    return found->exact >= 0 ? found->exact : found->least;
}

/* The same, with the covering worked out. */
static double firm_least_of(Set set) {
    Kept *found = kept(set);
    if (found->exact >= 0) return found->exact;
    if (!found->firm) {
        double more = cover(set);
        found->firm = 1;
        if (more > found->least) found->least = more;
    }
    return found->least;
}

static double weight_of(Set set) {
    double total = 0;
    for (; !is_empty(set); set = without_first(set)) total += weights[first_of(set)];
    return total;
}

/* Each suspect must be told from that other one which only dear checks tell from it. */
static double dearest(Set set) {
    double total = 0;
    for (Set left = set; !is_empty(left); left = without_first(left)) {
        int row = first_of(left);
        for (int n = 0; n < others[row]; n++)
            if (has(set, order[row][n])) {
                total += weights[row] * cheapest[row][order[row][n]];
                break;
            }
    }
    return total;
}

/* What it costs at least to tell each suspect from all that another mend removes. */
static double cover(Set set) {
    double total = 0;
    for (Set left = set; !is_empty(left); left = without_first(left)) {
        int row = first_of(left);
        double rest[MOST_CHECKS], paid = 0;
        memcpy(rest, seconds, (size_t)checks * sizeof(double));
        for (int n = 0; n < others[row]; n++) {
            int other = order[row][n];
            if (!has(set, other)) continue;
            double least = INFINITY;
            const short *which = apart[row][other];
            int count = apart_count[row][other];
            for (int k = 0; k < count; k++)
                if (rest[which[k]] < least) least = rest[which[k]];
            if (least <= 0 || !count) continue;
            for (int k = 0; k < count; k++) rest[which[k]] -= least;
            paid += least;
        }
        total += weights[row] * paid;
    }
    return total;
}

/* The parts that a check splits a state into; 0 or 1 when it tells nothing. */
static int split(Set set, int check, Set *found) {
    int count = 0;
    for (int n = 0; n < answers[check]; n++) {
        Set part = both(set, parts[check][n]);
        if (is_empty(part)) continue;
        if (same(part, set)) return 1;
        found[count++] = part;
    }
    return count;
}

typedef struct { int check; double floor; } Try;

static int by_floor(const void *one, const void *other) {
    double a = ((const Try *)one)->floor, b = ((const Try *)other)->floor;
    return (a > b) - (a < b);
}

/* The exact cost when it is below `limit`; else a bound that is not. */
static double solve(Set set, double limit) {
    Kept *mine = kept(set);
    if (mine->exact >= 0) return mine->exact;
    if (mine->least >= limit - SLACK) return mine->least;
    firm_least_of(set);
    if (mine->least >= limit - SLACK) return mine->least;
    if (++visits > most_visits) { gave_up = 1; return mine->least; }
    Try tries[MOST_CHECKS];
    Set found[MOST_ROWS];
    int count = 0;
    double weight = weight_of(set), least = mine->least;
    for (int check = 0; check < checks; check++) {
        int many = split(set, check, found);
        if (many < 2) continue;
        double sum = 0;
        for (int n = 0; n < many; n++) sum += least_of(found[n]);
        if (sum > least) least = sum;
        tries[count].check = check;
        tries[count++].floor = weight * seconds[check] + sum;
    }
    qsort(tries, (size_t)count, sizeof(Try), by_floor);
    for (int n = 0; n < count && tries[n].floor < limit - SLACK; n++) {
        int many = split(set, tries[n].check, found);
        double sum = 0;
        for (int k = 0; k < many; k++) sum += firm_least_of(found[k]);
        if (sum > least) least = sum;
        tries[n].floor = weight * seconds[tries[n].check] + sum;
    }
    if (least >= limit - SLACK) {
        mine = kept(set);
        if (least > mine->least) mine->least = least;
        return mine->least;
    }
    qsort(tries, (size_t)count, sizeof(Try), by_floor);
    if (!count) { kept(set)->exact = 0; return 0; }
    if (tries[0].floor > least) least = tries[0].floor;
    double best = INFINITY, unsolved = INFINITY;
    for (int n = 0; n < count && !gave_up; n++) {
        double bar = best < limit ? best : limit;
        if (tries[n].floor >= bar - SLACK) {
            if (tries[n].floor < unsolved) unsolved = tries[n].floor;
            break;
        }
        int many = split(set, tries[n].check, found);
        double floor = weight * seconds[tries[n].check];
        for (int k = 0; k < many; k++) floor += firm_least_of(found[k]);
        for (int one = 1; one < many; one++) /* the hardest first */
            for (int k = one; k && least_of(found[k]) > least_of(found[k - 1]); k--) {
                Set swapped = found[k];
                found[k] = found[k - 1];
                found[k - 1] = swapped;
            }
        for (int k = 0; k < many && floor < bar - SLACK && !gave_up; k++) {
            double before = least_of(found[k]);
            double now = solve(found[k], bar - floor + before);
            floor += now - before;
        }
        if (gave_up) break;
        if (floor < bar - SLACK) best = floor;
        else if (floor < unsolved) unsolved = floor;
    }
    mine = kept(set);
    if (gave_up) return mine->least;
    if (best < limit) { mine->exact = best; return best; }
    double bound = unsolved < best ? unsolved : best;
    if (bound > least) least = bound;
    if (least > mine->least) mine->least = least;
    return mine->least;
}

static int target;
static int by_cost(const void *one, const void *other) {
    double a = cheapest[target][*(const int *)one], b = cheapest[target][*(const int *)other];
    return (a < b) - (a > b);
}

static void prepare(void) {
    for (int one = 0; one < rows; one++) {
        others[one] = 0;
        for (int other = 0; other < rows; other++) {
            apart[one][other] = NULL;
            apart_count[one][other] = 0;
            cheapest[one][other] = 0;
            if (classes[one] == classes[other]) continue;
            short *which = malloc((size_t)checks * sizeof(short));
            int count = 0;
            double least = INFINITY;
            for (int check = 0; check < checks; check++)
                for (int n = 0; n < answers[check]; n++)
                    if (has(parts[check][n], one) && !has(parts[check][n], other)) {
                        which[count++] = (short)check;
                        if (seconds[check] < least) least = seconds[check];
                    }
            apart[one][other] = which;
            apart_count[one][other] = count;
            if (!count) continue;
            cheapest[one][other] = least;
            order[one][others[one]++] = other;
        }
        target = one;
        qsort(order[one], (size_t)others[one], sizeof(int), by_cost);
    }
}

/* Weighted seconds of the best plan, if it is below `limit`; -1 when `visits_allowed` do not do. */
double optimum(int n_rows, int n_checks, const int64_t *outcomes, const int64_t *mends,
               const double *row_weights, const double *check_seconds, double limit,
               long visits_allowed, long *visited) {
    rows = n_rows;
    checks = n_checks;
    visits = 0;
    most_visits = visits_allowed;
    gave_up = 0;
    for (int row = 0; row < rows; row++) {
        classes[row] = (int)mends[row];
        weights[row] = row_weights[row];
    }
    for (int check = 0; check < checks; check++) {
        seconds[check] = check_seconds[check];
        int most = 0;
        for (int row = 0; row < rows; row++)
            if (outcomes[row * checks + check] > most) most = (int)outcomes[row * checks + check];
        answers[check] = most + 1;
        parts[check] = calloc((size_t)most + 1, sizeof(Set));
        for (int row = 0; row < rows; row++) {
            Set *part = &parts[check][outcomes[row * checks + check]];
            if (row < 64) part->low |= 1ULL << row;
            else part->high |= 1ULL << (row - 64);
        }
    }
    prepare();
    table = NULL;
    size = filled = 0;
    Set all = {0, 0};
    for (int row = 0; row < rows; row++)
        if (row < 64) all.low |= 1ULL << row;
        else all.high |= 1ULL << (row - 64);
    double found = solve(all, limit);
    *visited = visits;
    free(table);
    for (int check = 0; check < checks; check++) free(parts[check]);
    for (int one = 0; one < rows; one++)
        for (int other = 0; other < rows; other++) free(apart[one][other]);
    return gave_up ? -1 : found;
}
