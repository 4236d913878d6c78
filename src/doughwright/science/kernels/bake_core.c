/* The oven's only hot loop; see bake_core.h. The plain-Python twin is bake_twin.py, the formulas are in science/.
 *
 * Every loop over lanes is plain, branch-free and of fixed length, so that a compiler turns it into vector
 * instructions. No lane looks at another: shortcuts are taken only where they leave every digit as it is.
 */
#include "bake_core.h"

#include "vector.h"

#define EACH EACH_OF(DW_BAKE_LANES)
/* Sets a bit of `flag` where any lane meets a condition. */
#define ANY(flag, condition) EACH flag |= (condition) ? 1 : 0
typedef double lanes[DW_BAKE_LANES];

enum { /* rows of the inputs, in the order of bake_layout.py */
    PRESSURE, BOILING, SORPTION, RISE,
    DOUGH_HEAT, DOUGH_K, CRUST_K, VAPOUR_SHARE, CRUST_D,
    SAUCE_HEAT, SAUCE_K, CHEESE_HEAT, CHEESE_K,
    DRY_K, DRY_MOISTURE, SKIN_DOUGH, SKIN_SAUCE, SKIN_CHEESE,
    CONTACT_WET, CONTACT_DRY, CONTACT_DEPTH, BROWNING, YEAST_D, YEAST_Z,
    SURFACE_HEAT, SURFACE_K, SURFACE_EMISSIVITY,
    SECONDS, AIR, WALLS, FILM, EMISSIVITY, VAPOUR, BROIL,
    OVER_AIR, OVER_WALLS, OVER_FILM, UNDER_AIR, UNDER_WALLS, UNDER_FILM,
    BASE_AIR, BASE_FILM, BASE_EMISSIVITY,
    DOOR_AIR, DOOR_WALLS, DOOR_RECOVERY, BEGINS, RAMP
};
enum {
    DRIED, NOTICED, VAPOUR_LIMIT, FRONT_DOUGH, FRONT_TOPPING, CEILING, LEWIS, WATER_HEAT, STEAM_HEAT,
    SPRING_FROM, SPRING_SPAN, SPRING_STOP, BROWNING_FROM, SET_TEMPERATURE, SET_SHARE
};
enum { TEMPERATURE, WATER, GELATINISED, SPRUNG, BOILED };
enum {
    CLOCK, BASE, TOP, FACE, BASE_BROWNING, TOP_BROWNING, LOST, DRYING, SET_AT, CORE_PEAK, KILLED,
    HEAT_TOP, HEAT_BASE, HEAT_CONTACT, HEAT_SURFACE, WARMED, SURFACE_WARMED, LATENT, CROSSED
};
enum {
    R_TIME, R_BASE, R_TOP, R_CORE, R_SURFACE, R_LOST, R_BASE_BROWNING, R_TOP_BROWNING, R_SET, R_KILLED,
    R_SAUCE, R_CHEESE, R_MOISTURE
};
enum { REFITS = 12, NEWTON_ROUNDS = 60, FACE_ROUNDS = 24 };

/* Those of bake_step.py, bake_edges.py, bake_front.py and science/. */
static const double DRIEST = 1e-6, WIDTH = 0.25, NEAR = 0.05, OVERFILLED = 5.0, CLOSE = 1e-10;
static const double FACE_STEP = 2.0, LEAST_BLOWN = 1e-9, MOST_BLOWN = 50.0, SECANT = 0.5, STEEP_FROM = 20.0;
static const double AIR_GAS = 287.0, AIR_HEAT = 1010.0, FILM_AIR = 150.0;
static const double ZERO_CELSIUS = 273.15, SEA_LEVEL = 101325.0, VAPOUR_GAS = 461.5, STEFAN = 5.670374419e-8;
static const double BURNT_CHANGE = 52.0, DEATH_REFERENCE = 60.0, MOST_DECADES = 12.0, LN_10 = 2.302585092994046;
static const double PER_DEGREE = 2.0; /* rows of the temperature table, from 0 degC */

/* One cell of a block: what it is, its state, and what one part of a step leaves for the next. */
typedef struct {
    _Alignas(64) lanes state[DW_BAKE_STATES];
    lanes before[DW_BAKE_STATES]; /* of the step, where its samples want it */
    /* What stays. */
    lanes solids, per_solids, raw; /* raw: 1 over the moisture from which it counts as dry, or over its first mass */
    lanes thick, spring, area;     /* area of its lower face */
    /* As it is now. */
    lanes capacity, moisture, dryness, thickness, resistance, apparent;
    lanes above;        /* conductance to the cell above */
    lanes lower, upper; /* steam heated from below and from above */
    lanes inverse, after, heat, start; /* of the elimination; its temperature before the step */
} cell;

_Static_assert(sizeof(cell) == sizeof(double) * DW_BAKE_WORK * DW_BAKE_LANES, "the work space is counted in bake_core.h");

/* A row of the table with the way to the next: saturation, carrying; their rises; gelatinising, browning likewise. */
enum { C_SATURATION, C_CARRYING, C_SATURATION_RISE, C_CARRYING_RISE, C_SETTING, C_SETTING_RISE, C_BROWN, C_BROWN_RISE };

/* Heat into a cell from outside: base - slope T, and the resistance from its middle to its face. */
typedef struct {
    lanes base, slope, resistance;
} flux;

/* The food's top and where its water leaves, as Top and Front of bake_edges.py. */
typedef struct {
    lanes film, meets, per_half, half, latent;
    lanes at, base, slope;               /* water: j = base + slope (T - at) */
    lanes activity, way_film, way_depth; /* what holds it back */
    lanes pool;                          /* that there is to draw on [kg/m2] */
    lanes on_top, found, deep;           /* 1 or 0 */
    int at_cell[DW_BAKE_LANES];
} top;

/* What one block needs while it bakes. */
typedef struct {
    const dw_bake_plan *plan;
    const double *table;
    cell *cells;
    int total, surface, dough; /* cells; those below the food; end of the dough */
    int steaming, wanted;      /* whether steam is on its way out; whether the step is sampled */
    lanes in[DW_BAKE_INPUTS];
    double rules[DW_BAKE_RULES];
    lanes carried[DW_BAKE_CARRIED], area; /* area of the topmost face */
    lanes per_crust, per_dry, per_sauce, per_cheese, per_rise, latent, share, least_free, driest;
    lanes done, length, seconds, per_seconds, elapsed;
    flux under, over, base;
    top top;
} bake;

/* ---- what is looked up ---- */

/* Where temperatures are in the table: a row, and the part of the way to the next. */
INLINE void place(const bake *b, const double *temperature, int *row, double *part) {
    const double last = b->plan->curve_rows - 1;
    EACH {
        double x = temperature[l] * PER_DEGREE;
        x = x > 0.0 ? x : 0.0;
        x = x < last ? x : last;
        row[l] = (int)x;
        part[l] = x - (double)row[l];
    }
}

/* One column at a row of each lane. In registers from the start: what is written lane by lane and read as a whole
 * has the processor wait. */
INLINE void gather(const double *column, const int *row, double *found) {
#if defined(__GNUC__)
    typedef double eight __attribute__((vector_size(8 * sizeof(double)), aligned(sizeof(double)), may_alias));
#define AT(lane) column[(ptrdiff_t)row[lane] * DW_BAKE_TABLE]
    *(eight *)found = (eight){AT(0), AT(1), AT(2), AT(3), AT(4), AT(5), AT(6), AT(7)};
#undef AT
#else
    for (int l = 0; l < DW_BAKE_LANES; l++) found[l] = column[(ptrdiff_t)row[l] * DW_BAKE_TABLE];
#endif
}

INLINE void look_up(const bake *b, const double *temperature, int column, int rise, double *found) {
    int row[DW_BAKE_LANES];
    lanes part, value, way;
    place(b, temperature, row, part);
    gather(b->table + column, row, value);
    gather(b->table + rise, row, way);
    EACH found[l] = value[l] + part[l] * way[l];
}

/* Saturation pressure and what steam carries. */
INLINE void look_up_steam(const bake *b, const double *temperature, double *saturation, double *carrying) {
    int row[DW_BAKE_LANES];
    lanes part, value, way, more, more_way;
    place(b, temperature, row, part);
    gather(b->table + C_SATURATION, row, value);
    gather(b->table + C_SATURATION_RISE, row, way);
    gather(b->table + C_CARRYING, row, more);
    gather(b->table + C_CARRYING_RISE, row, more_way);
    EACH {
        saturation[l] = value[l] + part[l] * way[l];
        carrying[l] = more[l] + part[l] * more_way[l];
    }
}

INLINE double latent_heat(double t) {
    t = least_of(most_of(t, 0.0), 200.0);
    return 2500.74e3 + t * (-2367.00 + t * (0.57084 + t * -1.31918e-2));
}

/* How strongly solids hold their water, B, and where that boils; it rises by 2.5 B/(X (1 + B) b) as it dries. */
INLINE double binding(const bake *b, double moisture, int l) {
    double ratio = b->in[SORPTION][l] / moisture;
    return ratio * ratio * sqrt(ratio);
}

INLINE double boiling_at(const bake *b, double held, int l) {
    return b->in[BOILING][l] + log_of(1.0 + held) * b->per_rise[l];
}

/* ---- the cells as they are: bake_step.look ---- */

/* Where one is as hot as plain water boils, what its boiling adds to its capacity. */
INLINE void boil_capacity(bake *b, cell *here) {
    int64_t hot = 0;
    EACH here->apparent[l] = here->capacity[l];
    ANY(hot, here->state[TEMPERATURE][l] >= b->in[BOILING][l] - NEAR);
    if (!hot) return;
    EACH {
        double held = binding(b, here->moisture[l], l), at = boiling_at(b, held, l);
        double water = here->state[WATER][l], under = here->moisture[l] * (1.0 + held) * b->in[RISE][l];
        double along = here->solids[l] * under / most_of(2.5 * held, 1e-12 * under);
        double extra = b->latent[l] * least_of(along, water * (1.0 / WIDTH));
        int boils = (here->state[TEMPERATURE][l] >= at - NEAR) & (water > 0.0);
        here->apparent[l] = here->capacity[l] + (boils ? extra : 0.0);
    }
}

INLINE void look_at_dough(bake *b, cell *here) {
    const double water_heat = b->rules[WATER_HEAT];
    lanes capped, saturation, carrying;
    EACH capped[l] = least_of(here->state[TEMPERATURE][l], b->in[BOILING][l]);
    look_up_steam(b, capped, saturation, carrying);
    EACH {
        double ratio = here->state[WATER][l] * here->per_solids[l];
        double dry = least_of(most_of(1.0 - ratio * here->raw[l], 0.0), 1.0);
        double free = most_of(b->in[PRESSURE][l] - saturation[l], b->least_free[l]);
        double wet = free / (b->in[DOUGH_K][l] * free + b->share[l] * carrying[l]);
        here->moisture[l] = most_of(ratio, DRIEST);
        here->dryness[l] = dry;
        here->capacity[l] = here->solids[l] * b->in[DOUGH_HEAT][l] + here->state[WATER][l] * water_heat;
        here->thickness[l] = here->thick[l] * (1.0 + here->spring[l] * here->state[SPRUNG][l]);
        here->resistance[l] = here->thickness[l] * (dry * b->per_crust[l] + (1.0 - dry) * wet);
    }
    boil_capacity(b, here);
}

INLINE void look_at_topping(bake *b, cell *here, const double *heat, const double *per_wet) {
    const double water_heat = b->rules[WATER_HEAT];
    EACH {
        double ratio = here->state[WATER][l] * here->per_solids[l];
        double dry = least_of(most_of(1.0 - ratio / b->in[DRY_MOISTURE][l], 0.0), 1.0);
        here->moisture[l] = most_of(ratio, DRIEST);
        here->dryness[l] = dry;
        here->capacity[l] = here->solids[l] * heat[l] + here->state[WATER][l] * water_heat;
        here->thickness[l] = here->thick[l] * ((here->solids[l] + here->state[WATER][l]) * here->raw[l]);
        here->resistance[l] = here->thickness[l] * (dry * b->per_dry[l] + (1.0 - dry) * per_wet[l]);
    }
    boil_capacity(b, here);
}

INLINE void look_at_all(bake *b) {
    for (int i = b->surface; i < b->dough; i++) look_at_dough(b, &b->cells[i]);
    for (int i = b->dough; i < b->total; i++) {
        const int cheese = b->plan->kinds[i] == DW_CHEESE;
        look_at_topping(b, &b->cells[i], b->in[cheese ? CHEESE_HEAT : SAUCE_HEAT],
                        cheese ? b->per_cheese : b->per_sauce);
    }
}

/* ---- the faces: bake_edges.edges ---- */

INLINE double rays(double emissivity, double face, double walls) {
    double one = face + ZERO_CELSIUS, other = walls + ZERO_CELSIUS;
    return emissivity * STEFAN * (one * one + other * other) * (one + other);
}

/* Air and walls of an oven that warms along its ramp; a door that was opened takes some off both. */
INLINE void meet(const bake *b, int which_air, int which_walls, int door, double *air, double *walls) {
    EACH {
        double ramp = b->in[RAMP][l], begins = b->in[BEGINS][l];
        double part = ramp > 0.0 ? least_of(b->elapsed[l] / most_of(ramp, 1e-9), 1.0) : 1.0;
        double fade = door ? exp_of(-b->elapsed[l] / b->in[DOOR_RECOVERY][l]) : 0.0;
        air[l] = begins + (b->in[which_air][l] - begins) * part - b->in[DOOR_AIR][l] * fade;
        walls[l] = begins + (b->in[which_walls][l] - begins) * part - b->in[DOOR_WALLS][l] * fade;
    }
}

INLINE void bare(const bake *b, flux *to, const cell *here, const double *area, const double *face,
                 const double *air, const double *walls, const double *film, const double *emissivity) {
    EACH {
        double radiates = rays(emissivity[l], face[l], walls[l]), half = 0.5 * here->resistance[l];
        double through = area[l] / (1.0 + (film[l] + radiates) * half);
        to->base[l] = through * (film[l] * air[l] + radiates * walls[l]);
        to->slope[l] = through * (film[l] + radiates);
        to->resistance[l] = half / most_of(area[l], 1e-12);
    }
    (void)b;
}

/* A bare face's temperature over that of its cell. */
INLINE double flux_in(const flux *f, double t, int l) { return f->base[l] - f->slope[l] * t; }

/* Water that leaves the front [kg/(m2 s)] at temperatures of it. */
INLINE void leaving(const bake *b, const double *at, double *found) {
    lanes saturation;
    const top *t = &b->top;
    look_up(b, at, C_SATURATION, C_SATURATION_RISE, saturation);
    EACH {
        double pressure = b->in[PRESSURE][l], middle = 0.5 * (at[l] + FILM_AIR) + ZERO_CELSIUS;
        double way = AIR_HEAT * pressure / (AIR_GAS * middle) * t->way_film[l] + t->way_depth[l];
        double share = least_of(t->activity[l] * saturation[l] / pressure, b->rules[CEILING]);
        double drive = log_of((1.0 - b->in[VAPOUR][l] / pressure) / (1.0 - share));
        found[l] = pressure / (VAPOUR_GAS * middle) * drive / way;
    }
}

/* Front.about: the line of evaporation about temperatures. */
INLINE void about(bake *b, const double *at) {
    lanes beyond, base, later;
    top *t = &b->top;
    EACH beyond[l] = at[l] + SECANT;
    leaving(b, at, base);
    leaving(b, beyond, later);
    EACH {
        double slope = (later[l] - base[l]) / SECANT;
        double least = base[l] > 0.0 ? base[l] / most_of(at[l] - STEEP_FROM, 1.0) : 0.0;
        int flows = (t->found[l] > 0.0) & ((t->on_top[l] > 0.0) | (base[l] > 0.0));
        t->at[l] = at[l];
        t->slope[l] = flows ? most_of(slope, least) : 0.0;
        t->base[l] = flows ? base[l] : 0.0;
        t->latent[l] = latent_heat(at[l]);
    }
}

/* bake_front.front: the first wet cell from the top. */
INLINE void find_front(bake *b) {
    const int last = b->total - 1;
    const int skin = last < b->dough ? SKIN_DOUGH : b->plan->kinds[last] == DW_CHEESE ? SKIN_CHEESE : SKIN_SAUCE;
    top *t = &b->top;
    lanes over, depth, moisture, at, index;
    const cell *highest = &b->cells[last];
    EACH {
        over[l] = t->found[l] = 0.0;
        depth[l] = 0.5 * highest->dryness[l] * highest->thickness[l];
        moisture[l] = highest->moisture[l];
        at[l] = highest->state[TEMPERATURE][l];
        index[l] = last;
    }
    for (int i = last; i >= b->surface; i--) {
        const cell *here = &b->cells[i];
        const double least = b->rules[i < b->dough ? FRONT_DOUGH : FRONT_TOPPING], own = i;
        int64_t missing = 0;
        EACH {
            int first = (t->found[l] == 0.0) & (here->state[WATER][l] * here->per_solids[l] > least);
            double deep = over[l] + 0.5 * here->dryness[l] * here->thickness[l];
            depth[l] = first ? deep : depth[l];
            moisture[l] = first ? here->moisture[l] : moisture[l];
            at[l] = first ? here->state[TEMPERATURE][l] : at[l];
            index[l] = first ? own : index[l];
            t->found[l] = first ? 1.0 : t->found[l];
            over[l] = over[l] + here->thickness[l];
        }
        ANY(missing, t->found[l] == 0.0);
        if (!missing) break;
    }
    EACH {
        int on_top = (t->found[l] > 0.0) & (index[l] == (double)last);
        t->on_top[l] = on_top ? 1.0 : 0.0;
        t->deep[l] = ((t->found[l] > 0.0) & !on_top) ? 1.0 : 0.0;
        t->activity[l] = 1.0 / (1.0 + binding(b, moisture[l], l));
        t->way_film[l] = b->rules[LEWIS] / (b->in[skin][l] * b->in[FILM][l]);
        t->way_depth[l] = depth[l] / b->in[CRUST_D][l];
        at[l] = on_top ? b->carried[TOP][l] : at[l];
        t->at_cell[l] = (int)index[l];
    }
    about(b, at);
}

INLINE double top_face(const bake *b, double temperature, int l) {
    const top *t = &b->top;
    double heat = t->on_top[l] * t->latent[l];
    double warm = t->film[l] * t->meets[l] + temperature * t->per_half[l] - heat * (t->base[l] - t->slope[l] * t->at[l]);
    return warm / (t->film[l] + t->per_half[l] + heat * t->slope[l]);
}

/* bake_edges._follow: evaporation about a face near the one it is going to. */
INLINE void follow(bake *b) {
    const double *now = b->cells[b->total - 1].state[TEMPERATURE];
    top *t = &b->top;
    lanes low, high, nearer;
    EACH {
        low[l] = 0.0;
        high[l] = most_of(most_of(t->meets[l], now[l]), b->in[BOILING][l]);
    }
    for (int n = 0; n < FACE_ROUNDS; n++) {
        int64_t far = 0;
        EACH {
            double at = t->at[l], face = top_face(b, now[l], l);
            int jumps = (t->on_top[l] > 0.0) & (fabs(face - at) > FACE_STEP);
            double under = face > at ? at : low[l], over = face > at ? high[l] : at;
            int inside = (face > under) & (face < over);
            nearer[l] = jumps ? (inside ? face : 0.5 * (under + over)) : at;
            low[l] = under;
            high[l] = over;
        }
        ANY(far, nearer[l] != t->at[l]);
        if (!far) break;
        about(b, nearer);
    }
}

/* Front.pool and held_to: what the front draws on, and no more than that in a step. */
INLINE void hold(bake *b) {
    const double *now = b->cells[b->total - 1].state[TEMPERATURE];
    top *t = &b->top;
    EACH t->pool[l] = 0.0;
    for (int i = b->dough; i < b->total; i++) EACH t->pool[l] += b->cells[i].state[WATER][l];
    for (int l = 0; l < DW_BAKE_LANES; l++)
        if (t->at_cell[l] < b->dough) t->pool[l] = b->cells[t->at_cell[l]].state[WATER][l];
    EACH {
        double most = t->pool[l] / (b->seconds[l] * b->area[l]);
        double there = t->on_top[l] > 0.0 ? top_face(b, now[l], l) : t->at[l];
        int over = t->base[l] + t->slope[l] * (there - t->at[l]) > most;
        t->base[l] = over ? most : t->base[l];
        t->slope[l] = over ? 0.0 : t->slope[l];
    }
}

/* Steam of the last step that leaves the top, and what each cell's neighbours give to it: bake_step.steam_flow. */
INLINE void cross(bake *b, double *out) {
    const int n = b->surface;
    const double food = (b->total - n) / 2, heat = b->rules[STEAM_HEAT];
    lanes coldest, inner, sum;
    EACH {
        out[l] = sum[l] = inner[l] = 0.0;
        coldest[l] = b->cells[n].state[TEMPERATURE][l];
    }
    if (!b->steaming) return;
    for (int i = n + 1; i < b->total; i++) {
        const double *t = b->cells[i].state[TEMPERATURE], order = i - n;
        EACH {
            inner[l] = t[l] < coldest[l] ? order : inner[l];
            coldest[l] = t[l] < coldest[l] ? t[l] : coldest[l];
        }
    }
    EACH inner[l] = coldest[l] > b->in[BOILING][l] - 1.0 ? food : inner[l];
    for (int i = n; i < b->total; i++) {
        cell *here = &b->cells[i];
        const double *below = b->cells[i > n ? i - 1 : i].state[TEMPERATURE], order = i - n;
        EACH {
            here->lower[l] = here->state[TEMPERATURE][l] > below[l] ? out[l] * heat : 0.0;
            out[l] += order >= inner[l] ? here->state[BOILED][l] : 0.0;
        }
    }
    for (int i = b->total - 1; i >= n; i--) {
        cell *here = &b->cells[i];
        const double *above = b->cells[i + 1 < b->total ? i + 1 : i].state[TEMPERATURE], order = i - n;
        EACH {
            here->upper[l] = above[l] < here->state[TEMPERATURE][l] ? sum[l] * heat : 0.0;
            sum[l] += order < inner[l] ? here->state[BOILED][l] : 0.0;
        }
    }
}

INLINE void see_top(bake *b, const double *air, const double *walls, const double *out) {
    const cell *last = &b->cells[b->total - 1];
    top *t = &b->top;
    EACH {
        double radiates = rays(b->in[EMISSIVITY][l], b->carried[TOP][l], walls[l]), film = b->in[FILM][l];
        double gone = out[l] + most_of(b->carried[DRYING][l], 0.0);
        double blown = gone * b->rules[STEAM_HEAT] / b->area[l] / film;
        film = film / mean_growth(least_of(most_of(blown, LEAST_BLOWN), MOST_BLOWN));
        t->film[l] = film + radiates;
        t->meets[l] = (film * air[l] + radiates * walls[l] + b->in[BROIL][l]) / t->film[l];
        t->half[l] = 0.5 * last->resistance[l];
        t->per_half[l] = 1.0 / t->half[l];
    }
    find_front(b);
    follow(b);
    hold(b);
}

INLINE void see_edges(bake *b) {
    const int n = b->surface, total = b->total, lifted = b->plan->lifted;
    lanes air, walls, out;
    if (n) {
        meet(b, UNDER_AIR, UNDER_WALLS, 0, air, walls);
        bare(b, &b->under, &b->cells[0], b->cells[0].area, b->cells[0].state[TEMPERATURE], air, walls,
             b->in[UNDER_FILM], b->in[SURFACE_EMISSIVITY]);
    }
    if (n && (lifted || n == total)) {
        meet(b, OVER_AIR, OVER_WALLS, 1, air, walls);
        bare(b, &b->over, &b->cells[n - 1], n < total ? b->cells[n].area : b->area, b->carried[FACE], air, walls,
             b->in[OVER_FILM], b->in[SURFACE_EMISSIVITY]);
    }
    if (n == total) return;
    if (lifted || n == 0)
        bare(b, &b->base, &b->cells[n], b->cells[n].area, b->carried[BASE], b->in[BASE_AIR], b->in[BASE_AIR],
             b->in[BASE_FILM], b->in[BASE_EMISSIVITY]);
    meet(b, AIR, WALLS, !lifted, air, walls);
    cross(b, out);
    see_top(b, air, walls, out);
}

/* ---- the solve: bake_twin._solved ---- */

/* bake_step.contact: conductance between surface and dough. */
INLINE void contact(const bake *b, double *found) {
    lanes depth, going;
    EACH {
        depth[l] = 0.0;
        going[l] = 1.0;
    }
    for (int i = b->surface; i < b->dough; i++) {
        const cell *here = &b->cells[i];
        int64_t any = 0;
        EACH {
            double dry = here->dryness[l], on = dry > b->rules[NOTICED] ? going[l] : 0.0;
            depth[l] = depth[l] + on * dry * here->thickness[l];
            going[l] = dry >= b->rules[DRIED] ? on : 0.0;
        }
        ANY(any, going[l] > 0.0);
        if (!any) break;
    }
    EACH {
        double span = b->in[CONTACT_WET][l] - b->in[CONTACT_DRY][l];
        found[l] = b->in[CONTACT_DRY][l] + span * exp_of(-depth[l] / b->in[CONTACT_DEPTH][l]);
    }
}

INLINE void join_cells(bake *b) {
    const int n = b->surface;
    for (int i = 0; i + 1 < b->total; i++) {
        cell *here = &b->cells[i], *next = here + 1;
        if (i + 1 != n || n == b->total)
            EACH here->above[l] = next->area[l] / (0.5 * (here->resistance[l] + next->resistance[l]));
        else if (b->plan->lifted)
            EACH here->above[l] = 0.0;
        else {
            lanes touch;
            contact(b, touch);
            EACH {
                double between = 0.5 * (here->resistance[l] + next->resistance[l]) + 1.0 / touch[l];
                here->above[l] = next->area[l] / between;
            }
        }
    }
}

INLINE void add_flux(cell *here, const flux *f) {
    EACH {
        here->after[l] += f->base[l];
        here->inverse[l] += f->slope[l];
    }
}

/* What stays the same when the step is solved again is done again: that is rare. */
INLINE void begin_rows(bake *b) {
    const int n = b->surface, total = b->total, lifted = b->plan->lifted;
    for (int i = 0; i < total; i++) {
        cell *here = &b->cells[i];
        EACH {
            here->inverse[l] = here->apparent[l] * b->per_seconds[l];
            here->after[l] = here->inverse[l] * here->state[TEMPERATURE][l];
        }
    }
    if (n) add_flux(&b->cells[0], &b->under);
    if (n && (lifted || n == total)) add_flux(&b->cells[n - 1], &b->over);
    if (n == total) return;
    if (lifted || n == 0) add_flux(&b->cells[n], &b->base);
    const top *t = &b->top;
    cell *last = &b->cells[total - 1];
    EACH {
        double heat = t->on_top[l] * t->latent[l], slope = t->film[l] + heat * t->slope[l];
        double whole = (slope + t->per_half[l]) * t->half[l] / b->area[l];
        last->after[l] += (t->film[l] * t->meets[l] - heat * (t->base[l] - t->slope[l] * t->at[l])) / whole;
        last->inverse[l] += slope / whole;
    }
    for (int l = 0; l < DW_BAKE_LANES; l++) {
        cell *front = &b->cells[t->at_cell[l]];
        double deep = t->deep[l] * t->latent[l] * b->area[l];
        front->after[l] -= deep * (t->base[l] - t->slope[l] * t->at[l]);
        front->inverse[l] += deep * t->slope[l];
    }
}

INLINE void solve(bake *b) {
    lanes below, value;
    begin_rows(b);
    EACH below[l] = value[l] = 0.0;
    for (int i = 0; i < b->total; i++) {
        cell *here = &b->cells[i];
        const int more = i + 1 < b->total;
        /* `below` is what the cell under this one keeps of it: part * above of the elimination. */
        EACH {
            double own = here->inverse[l] + here->lower[l] + here->upper[l] + (more ? here->above[l] : 0.0);
            double pivot = own + below[l];
            double inverse = 1.0 / pivot;
            here->inverse[l] = inverse;
            here->after[l] += value[l];
        }
        if (more) {
            const cell *next = here + 1;
            EACH {
                double down = here->above[l] + next->lower[l], up = here->above[l] + here->upper[l];
                double part = down * here->inverse[l];
                below[l] = here->above[l] - part * up;
                value[l] = part * here->after[l];
            }
        }
    }
    cell *last = &b->cells[b->total - 1];
    EACH last->after[l] *= last->inverse[l];
    for (int i = b->total - 2; i >= 0; i--) {
        cell *here = &b->cells[i], *next = here + 1;
        EACH {
            double up = here->above[l] + here->upper[l];
            here->after[l] = (here->after[l] + up * next->after[l]) * here->inverse[l];
        }
    }
}

/* bake_step.refit: capacities that the step would overfill or cool; whether any changed. */
INLINE int refit(bake *b) {
    int64_t changed = 0;
    for (int i = b->surface; i < b->total; i++) {
        cell *here = &b->cells[i];
        int64_t cools = 0, over = 0;
        EACH {
            double step = here->after[l] - here->state[TEMPERATURE][l];
            int on = here->apparent[l] > here->capacity[l];
            cools |= (on & (step < 0.0)) ? 1 : 0;
            over |= (on & (step > WIDTH)) ? 1 : 0;
        }
        if (!(cools | over)) continue;
        lanes now;
        EACH {
            double step = here->after[l] - here->state[TEMPERATURE][l];
            double on = here->apparent[l] > here->capacity[l] ? 1.0 : 0.0;
            now[l] = on > 0.0 && step < 0.0 ? here->capacity[l] : here->apparent[l];
        }
        if (over) EACH {
                double step = here->after[l] - here->state[TEMPERATURE][l];
                int hot = (here->apparent[l] > here->capacity[l]) & (step > WIDTH);
                double rise = most_of(here->after[l] - b->in[BOILING][l], 0.0) * b->in[RISE][l];
                rise = hot ? least_of(rise, 300.0) : 1.0;
                double bound = most_of(rise, 1e-300) * mean_growth(most_of(rise, 1e-300));
                double held = b->in[SORPTION][l] / exp_of(0.4 * log_of(bound));
                double boiled = most_of(here->state[WATER][l] - here->solids[l] * held, 0.0);
                double true_one = here->capacity[l] + b->latent[l] * boiled / (hot ? step : 1.0);
                int amiss = hot & ((here->apparent[l] - true_one) * step > OVERFILLED * here->capacity[l]);
                now[l] = amiss ? true_one : now[l];
            }
        ANY(changed, now[l] != here->apparent[l]);
        EACH here->apparent[l] = now[l];
    }
    return changed != 0;
}

/* ---- what the step leaves: bake_after.close_step ---- */

INLINE void book_flows(bake *b) {
    const int n = b->surface, total = b->total, lifted = b->plan->lifted;
    const double *seconds = b->seconds;
    for (int i = 0; i < total; i++) {
        cell *here = &b->cells[i];
        EACH {
            here->start[l] = here->state[TEMPERATURE][l];
            here->heat[l] = here->apparent[l] * (here->after[l] - here->start[l]);
        }
    }
    if (n) EACH b->carried[HEAT_SURFACE][l] += seconds[l] * flux_in(&b->under, b->cells[0].after[l], l);
    if (n && (lifted || n == total))
        EACH b->carried[HEAT_SURFACE][l] += seconds[l] * flux_in(&b->over, b->cells[n - 1].after[l], l);
    if (n == total) return;
    if (lifted || n == 0)
        EACH b->carried[HEAT_BASE][l] += seconds[l] * flux_in(&b->base, b->cells[n].after[l], l);
    EACH {
        double face = top_face(b, b->cells[total - 1].after[l], l);
        b->carried[HEAT_TOP][l] += seconds[l] * (b->area[l] * b->top.film[l] * (b->top.meets[l] - face));
    }
    if (n) EACH {
            double step = b->cells[n - 1].after[l] - b->cells[n].after[l];
            b->carried[HEAT_CONTACT][l] += seconds[l] * (b->cells[n - 1].above[l] * step);
        }
    if (!b->steaming) return;
    lanes taken;
    EACH taken[l] = 0.0;
    for (int i = n; i + 1 < total; i++) {
        const cell *here = &b->cells[i], *next = here + 1;
        EACH taken[l] += (next->lower[l] - here->upper[l]) * (next->after[l] - here->after[l]);
    }
    EACH b->carried[CROSSED][l] += seconds[l] * taken[l];
}

/* Water that left below boiling, from all toppings together; what was not there gives its heat back. */
INLINE void evaporate(bake *b) {
    const top *t = &b->top;
    lanes felt, left, share;
    for (int l = 0; l < DW_BAKE_LANES; l++) felt[l] = b->cells[t->at_cell[l]].after[l];
    EACH {
        double at = t->on_top[l] > 0.0 ? top_face(b, b->cells[b->total - 1].after[l], l) : felt[l];
        double asked = t->found[l] * (b->area[l] * (t->base[l] + t->slope[l] * (at - t->at[l]))) * b->seconds[l];
        double leaves = least_of(t->on_top[l] > 0.0 ? asked : most_of(asked, 0.0), t->pool[l]);
        felt[l] = t->latent[l] * (asked - leaves);
        left[l] = leaves;
        share[l] = leaves / most_of(t->pool[l], 1e-300);
        b->carried[LOST][l] += leaves;
        b->carried[DRYING][l] = leaves * b->per_seconds[l];
        b->carried[LATENT][l] += t->latent[l] * leaves;
    }
    for (int l = 0; l < DW_BAKE_LANES; l++) {
        cell *front = &b->cells[t->at_cell[l]];
        front->heat[l] += felt[l];
        if (t->at_cell[l] < b->dough) front->state[WATER][l] = most_of(front->state[WATER][l] - left[l], 0.0);
    }
    for (int i = b->dough; i < b->total; i++) {
        cell *here = &b->cells[i];
        for (int l = 0; l < DW_BAKE_LANES; l++) {
            double own = here->state[WATER][l];
            if (t->at_cell[l] >= b->dough) here->state[WATER][l] = most_of(own - share[l] * own, 0.0);
        }
    }
}

/* bake_step._boiled: water whose boiling brings a cell down onto its boiling curve, by Newton in its bracket. */
INLINE void boil(const bake *b, const cell *here, const double *reached, const double *cool, double *boiled) {
    lanes low, high, gap, over, under, going, all, m; /* over / under: how steeply the curve rises with what boils */
    const double *water = here->state[WATER];
    EACH {
        double moisture = most_of(water[l] * here->per_solids[l], DRIEST), held = binding(b, moisture, l);
        double at = boiling_at(b, held, l);
        int boils = (reached[l] > at) & (water[l] > 0.0);
        going[l] = boils ? 1.0 : 0.0;
        over[l] = 2.5 * held * here->per_solids[l];
        under[l] = moisture * (1.0 + held) * b->in[RISE][l];
        gap[l] = reached[l] - at;
        low[l] = m[l] = 0.0;
        high[l] = least_of(gap[l] / cool[l], water[l]);
        all[l] = boils && reached[l] - cool[l] * water[l] >= b->driest[l] ? 1.0 : 0.0;
        boiled[l] = going[l];
    }
    for (int n = 0; n < NEWTON_ROUNDS; n++) {
        int64_t any = 0;
        ANY(any, going[l] > 0.0);
        if (!any) break;
        EACH {
            double step = m[l] + gap[l] * under[l] / (cool[l] * under[l] + over[l]);
            step = ((step > low[l]) & (step < high[l])) ? step : 0.5 * (low[l] + high[l]);
            double now = going[l] > 0.0 ? step : m[l];
            double left = most_of((water[l] - now) * here->per_solids[l], DRIEST), held = binding(b, left, l);
            double off = reached[l] - cool[l] * now - boiling_at(b, held, l);
            m[l] = now;
            over[l] = 2.5 * held * here->per_solids[l];
            under[l] = left * (1.0 + held) * b->in[RISE][l];
            gap[l] = off;
            going[l] = fabs(off) > CLOSE ? going[l] : 0.0;
            low[l] = off > 0.0 ? now : low[l];
            high[l] = off > 0.0 ? high[l] : now;
        }
    }
    EACH boiled[l] = boiled[l] > 0.0 ? (all[l] > 0.0 ? water[l] : m[l]) : 0.0;
}

/* bake_step.recover: temperature and boiled water from the heat that each cell took up. */
INLINE void recover(bake *b) {
    lanes lost, warmed;
    EACH lost[l] = warmed[l] = 0.0;
    for (int i = 0; i < b->surface; i++) {
        cell *here = &b->cells[i];
        EACH {
            double now = here->start[l] + here->heat[l] / here->capacity[l];
            warmed[l] += here->capacity[l] * (now - here->start[l]);
            here->state[TEMPERATURE][l] = now;
        }
    }
    EACH {
        b->carried[SURFACE_WARMED][l] += warmed[l];
        warmed[l] = 0.0;
    }
    b->steaming = 0;
    for (int i = b->surface; i < b->total; i++) {
        cell *here = &b->cells[i];
        lanes reached, cool, boiled;
        int64_t hot = 0;
        EACH {
            double per = 1.0 / here->capacity[l];
            reached[l] = here->start[l] + here->heat[l] * per;
            cool[l] = b->latent[l] * per;
            boiled[l] = 0.0;
        }
        ANY(hot, reached[l] > b->in[BOILING][l]);
        if (hot) {
            boil(b, here, reached, cool, boiled);
            b->steaming = 1;
        }
        EACH {
            double now = reached[l] - cool[l] * boiled[l];
            warmed[l] += here->capacity[l] * (now - here->start[l]);
            lost[l] += boiled[l];
            here->state[TEMPERATURE][l] = now;
            here->state[WATER][l] -= boiled[l];
            here->state[BOILED][l] = boiled[l] * b->per_seconds[l];
        }
    }
    EACH {
        b->carried[WARMED][l] += warmed[l];
        b->carried[LOST][l] += lost[l];
        b->carried[LATENT][l] += b->latent[l] * lost[l];
    }
}

INLINE double face_of(const flux *f, double temperature, int l) {
    return temperature + flux_in(f, temperature, l) * f->resistance[l];
}

INLINE void see_faces(bake *b) {
    const int n = b->surface, total = b->total, lifted = b->plan->lifted;
    if (n && n < total) {
        const cell *here = &b->cells[n - 1], *next = here + 1;
        EACH {
            double low = here->state[TEMPERATURE][l], high = next->state[TEMPERATURE][l];
            double flow = here->above[l] * (low - high) / most_of(next->area[l], 1e-12);
            b->carried[FACE][l] = low - flow * 0.5 * here->resistance[l];
            b->carried[BASE][l] = high + flow * 0.5 * next->resistance[l];
        }
    }
    if (n && (lifted || n == total))
        EACH b->carried[FACE][l] = face_of(&b->over, b->cells[n - 1].state[TEMPERATURE][l], l);
    if (n == total) return;
    if (lifted || n == 0) EACH b->carried[BASE][l] = face_of(&b->base, b->cells[n].state[TEMPERATURE][l], l);
    EACH b->carried[TOP][l] = top_face(b, b->cells[total - 1].state[TEMPERATURE][l], l);
}

INLINE void brown(bake *b, int face, int browning) {
    lanes rate;
    look_up(b, b->carried[face], C_BROWN, C_BROWN_RISE, rate);
    EACH {
        double on = b->carried[face][l] > b->rules[BROWNING_FROM] ? rate[l] * b->in[BROWNING][l] : 0.0;
        double left = (BURNT_CHANGE - b->carried[browning][l]) * exp_of(-on * b->seconds[l]);
        b->carried[browning][l] = BURNT_CHANGE - left;
    }
}

INLINE double crosses(double old, double now, double level) {
    double part = (level - old) / (now > old ? now - old : 1.0);
    return now >= level ? least_of(most_of(part, 0.0), 1.0) : 2.0;
}

INLINE void settle(bake *b) {
    lanes was, now, old, set;
    EACH {
        was[l] = now[l] = DBL_MAX;
        old[l] = set[l] = 2.0;
    }
    for (int i = b->surface; i < b->dough; i++) {
        cell *here = &b->cells[i];
        lanes rate;
        int64_t raw = 0;
        EACH {
            double t = here->state[TEMPERATURE][l], g = here->state[GELATINISED][l], e = here->state[SPRUNG][l];
            double up = least_of(most_of((t - b->rules[SPRING_FROM]) / b->rules[SPRING_SPAN], 0.0), 1.0);
            was[l] = least_of(here->start[l], was[l]);
            now[l] = least_of(t, now[l]);
            old[l] = least_of(g, old[l]);
            here->state[SPRUNG][l] = g < b->rules[SPRING_STOP] ? most_of(e, up) : e;
        }
        ANY(raw, here->state[GELATINISED][l] != 1.0);
        if (raw) {
            look_up(b, here->state[TEMPERATURE], C_SETTING, C_SETTING_RISE, rate);
            EACH {
                double left = (1.0 - here->state[GELATINISED][l]) * exp_of(-rate[l] * b->seconds[l]);
                here->state[GELATINISED][l] = 1.0 - left;
            }
        }
        EACH set[l] = least_of(here->state[GELATINISED][l], set[l]);
    }
    EACH {
        double part = least_of(crosses(was[l], now[l], b->rules[SET_TEMPERATURE]),
                               crosses(old[l], set[l], b->rules[SET_SHARE]));
        double before = b->carried[SET_AT][l], at = b->carried[CLOCK][l] + part * b->seconds[l];
        double decades = least_of((now[l] - DEATH_REFERENCE) / b->in[YEAST_Z][l], MOST_DECADES);
        b->carried[SET_AT][l] = ((before != before) & (part <= 1.0)) ? at : before;
        b->carried[CORE_PEAK][l] = most_of(b->carried[CORE_PEAK][l], now[l]);
        b->carried[KILLED][l] += b->seconds[l] * exp_of(decades * LN_10) / b->in[YEAST_D][l];
    }
}

/* bake_twin.step_column. */
INLINE void step(bake *b) {
    const int food = b->surface < b->total;
    look_at_all(b);
    for (int i = 0; i < b->total; i++) EACH b->cells[i].lower[l] = b->cells[i].upper[l] = 0.0;
    see_edges(b);
    join_cells(b);
    for (int n = 0; n <= REFITS; n++) {
        solve(b);
        if (n == REFITS || !refit(b)) break;
    }
    book_flows(b);
    if (food) evaporate(b);
    recover(b);
    see_faces(b);
    if (food) {
        brown(b, BASE, BASE_BROWNING);
        brown(b, TOP, TOP_BROWNING);
        settle(b);
    }
    EACH b->carried[CLOCK][l] += b->seconds[l];
}

/* ---- one block: bake_twin.bake ---- */

/* Where each lane of a block stands in its phase. */
typedef struct {
    lanes due, ends, start;       /* s: of the next sample, of the step to come, when it began */
    lanes rows[2][DW_BAKE_ROW];   /* at the start and at the end of the step */
    int live[DW_BAKE_LANES], next[DW_BAKE_LANES];
    int left; /* lanes still live */
} baking;

/* The column as it is now, as a row. */
INLINE void describe(const bake *b, const double *time, lanes *row) {
    const int n = b->surface, total = b->total;
    for (int r = 0; r < DW_BAKE_ROW; r++) EACH row[r][l] = NAN;
    EACH row[R_TIME][l] = time[l];
    if (n) EACH row[R_SURFACE][l] = b->carried[FACE][l];
    if (n == total) return;
    EACH {
        row[R_BASE][l] = b->carried[BASE][l];
        row[R_TOP][l] = b->carried[TOP][l];
        row[R_LOST][l] = b->carried[LOST][l];
        row[R_BASE_BROWNING][l] = b->carried[BASE_BROWNING][l];
        row[R_TOP_BROWNING][l] = b->carried[TOP_BROWNING][l];
        row[R_KILLED][l] = b->carried[KILLED][l];
        row[R_CORE][l] = DBL_MAX;
        row[R_SET][l] = 2.0;
    }
    for (int i = n; i < b->dough; i++) {
        const cell *here = &b->cells[i];
        EACH {
            double t = here->state[TEMPERATURE][l], wet = here->state[WATER][l] / (here->state[WATER][l] + here->solids[l]);
            row[R_MOISTURE][l] = t < row[R_CORE][l] ? wet : row[R_MOISTURE][l];
            row[R_CORE][l] = least_of(t, row[R_CORE][l]);
            row[R_SET][l] = least_of(here->state[GELATINISED][l], row[R_SET][l]);
        }
    }
    for (int i = total - 1; i >= b->dough; i--) {
        const int to = b->plan->kinds[i] == DW_CHEESE ? R_CHEESE : R_SAUCE;
        EACH row[to][l] = b->cells[i].state[TEMPERATURE][l];
    }
}

/* Write one lane's sample: on the line between the two rows (and states), `part` of the way. */
INLINE void write_sample(const bake *b, baking *c, const dw_bake_block *block, int l, double part) {
    const ptrdiff_t k = c->next[l]++;
    for (int r = 0; r < DW_BAKE_ROW; r++) {
        double old = c->rows[0][r][l], now = c->rows[1][r][l];
        block->rows[(k * DW_BAKE_ROW + r) * block->stride + l] = part < 1.0 ? old + part * (now - old) : now;
    }
    if (!block->snapshots) return;
    for (int v = 0; v < DW_BAKE_STATES; v++)
        for (int i = 0; i < b->total; i++) {
            double old = b->cells[i].before[v][l], now = b->cells[i].state[v][l];
            ptrdiff_t to = (k * DW_BAKE_STATES + v) * b->total + i;
            block->snapshots[to * block->stride + l] = part < 1.0 ? old + part * (now - old) : now;
        }
}

INLINE void set_due(const bake *b, baking *c, int l) {
    c->due[l] = c->next[l] < b->plan->samples ? b->plan->fractions[c->next[l]] * b->in[SECONDS][l] : DBL_MAX;
}

/* A lane is done: its state goes to the caller. */
INLINE void finish(const bake *b, baking *c, const dw_bake_block *block, int l) {
    for (int v = 0; v < DW_BAKE_STATES; v++)
        for (int i = 0; i < b->total; i++)
            block->state_after[((ptrdiff_t)v * b->total + i) * block->stride + l] = b->cells[i].state[v][l];
    for (int v = 0; v < DW_BAKE_CARRIED; v++) block->carried_after[v * block->stride + l] = b->carried[v][l];
    c->live[l] = 0;
    c->left--;
}

INLINE void begin(bake *b, baking *c, const dw_bake_block *block) {
    lanes zero;
    c->left = block->count;
    EACH {
        zero[l] = b->done[l] = 0.0;
        b->length[l] = b->plan->first / b->plan->growth;
        c->due[l] = DBL_MAX;
        c->next[l] = 0;
        c->live[l] = l < block->count;
    }
    if (b->plan->samples) describe(b, zero, c->rows[1]);
    for (int l = 0; l < block->count; l++) {
        for (set_due(b, c, l); c->due[l] <= 0.0; set_due(b, c, l)) write_sample(b, c, block, l, 1.0);
        if (!(b->in[SECONDS][l] > 0.0)) finish(b, c, block, l);
    }
}

/* How long each lane's next step is; a lane that has ended is stepped on in place, and not looked at. */
INLINE void next_length(bake *b, baking *c) {
    const dw_bake_plan *p = b->plan;
    int sampled = 0;
    for (int l = 0; l < DW_BAKE_LANES; l++) {
        double left = b->in[SECONDS][l] - b->done[l], want = least_of(b->length[l] * p->growth, p->longest);
        double length = left <= want ? left : least_of(want, 0.5 * left);
        length = c->live[l] ? length : p->first;
        b->length[l] = b->seconds[l] = length;
        b->per_seconds[l] = 1.0 / length;
        b->elapsed[l] = b->done[l] + length;
        c->start[l] = b->done[l];
        c->ends[l] = left <= length ? b->in[SECONDS][l] : b->elapsed[l];
        sampled |= c->live[l] && c->due[l] <= c->ends[l];
    }
    b->wanted = sampled;
}

/* One step of all lanes. */
INLINE void advance(bake *b, baking *c, const dw_bake_block *block) {
    next_length(b, c);
    if (b->wanted) {
        describe(b, c->start, c->rows[0]);
        if (block->snapshots)
            for (int i = 0; i < b->total; i++)
                for (int v = 0; v < DW_BAKE_STATES; v++) EACH b->cells[i].before[v][l] = b->cells[i].state[v][l];
    }
    step(b);
    if (b->wanted) describe(b, c->ends, c->rows[1]);
    for (int l = 0; l < DW_BAKE_LANES; l++) {
        b->done[l] = c->ends[l];
        if (!c->live[l]) continue;
        for (; c->due[l] <= c->ends[l]; set_due(b, c, l))
            write_sample(b, c, block, l, (c->due[l] - c->start[l]) / (c->ends[l] - c->start[l]));
        if (!(b->in[SECONDS][l] > b->done[l])) finish(b, c, block, l);
    }
}

INLINE void take_cells(bake *b, const dw_bake_block *block) {
    for (int i = 0; i < b->total; i++) {
        cell *here = &b->cells[i];
        const int kind = b->plan->kinds[i];
        const ptrdiff_t at = i * block->stride;
        EACH {
            const ptrdiff_t from = at + (l < block->count ? l : 0);
            double moisture = block->moisture[from];
            here->solids[l] = block->solids[from];
            here->per_solids[l] = 1.0 / here->solids[l];
            here->raw[l] = 1.0 / (kind == DW_DOUGH ? moisture : here->solids[l] * (1.0 + moisture));
            here->thick[l] = here->thickness[l] = block->thickness[from];
            here->spring[l] = block->spring[from];
            here->area[l] = block->area[from];
            here->above[l] = here->lower[l] = here->upper[l] = here->dryness[l] = 0.0;
        }
        for (int v = 0; v < DW_BAKE_STATES; v++) {
            const double *from = block->state + ((ptrdiff_t)v * b->total + i) * block->stride;
            EACH here->state[v][l] = here->before[v][l] = from[l < block->count ? l : 0];
        }
        for (int l = 0; l < DW_BAKE_LANES; l++) b->steaming |= here->state[BOILED][l] != 0.0;
        /* A surface's properties do not change. */
        EACH {
            here->capacity[l] = here->solids[l] * b->in[SURFACE_HEAT][l] + here->state[WATER][l] * b->rules[WATER_HEAT];
            here->apparent[l] = here->capacity[l];
            here->resistance[l] = here->thick[l] / b->in[SURFACE_K][l];
        }
    }
    EACH b->area[l] = block->area[b->total * block->stride + (l < block->count ? l : 0)];
}

INLINE void start(bake *b, const dw_bake_plan *plan, const dw_bake_block *block, const double *table, double *work) {
    b->plan = plan;
    b->table = table;
    b->cells = (cell *)work;
    b->total = plan->cells;
    b->surface = b->dough = b->steaming = 0;
    for (int i = 0; i < plan->cells; i++) {
        b->surface += plan->kinds[i] == DW_SURFACE;
        b->dough += plan->kinds[i] <= DW_DOUGH;
    }
    for (int k = 0; k < DW_BAKE_RULES; k++) b->rules[k] = plan->rules[k];
    for (int k = 0; k < DW_BAKE_INPUTS; k++)
        EACH b->in[k][l] = block->inputs[k * block->stride + (l < block->count ? l : 0)];
    for (int k = 0; k < DW_BAKE_CARRIED; k++)
        EACH b->carried[k][l] = block->carried[k * block->stride + (l < block->count ? l : 0)];
    EACH {
        b->per_crust[l] = 1.0 / b->in[CRUST_K][l];
        b->per_dry[l] = 1.0 / b->in[DRY_K][l];
        b->per_sauce[l] = 1.0 / b->in[SAUCE_K][l];
        b->per_cheese[l] = 1.0 / b->in[CHEESE_K][l];
        b->per_rise[l] = 1.0 / b->in[RISE][l];
        b->latent[l] = latent_heat(b->in[BOILING][l]);
        b->share[l] = b->in[VAPOUR_SHARE][l] * SEA_LEVEL;
        b->driest[l] = boiling_at(b, binding(b, DRIEST, l), l);
        b->least_free[l] = b->in[PRESSURE][l] / b->rules[VAPOUR_LIMIT];
    }
    take_cells(b, block);
}

void dw_bake_tabulate(const dw_bake_plan *plan, double *table) {
    /* Where saturation, carrying, browning and gelatinising lie in a row, and the way to the next. */
    static const int to[] = {C_SATURATION, C_CARRYING, C_BROWN, C_SETTING};
    static const int rise[] = {C_SATURATION_RISE, C_CARRYING_RISE, C_BROWN_RISE, C_SETTING_RISE};
    for (int i = 0; i < plan->curve_rows; i++)
        for (int c = 0; c < DW_BAKE_CURVES; c++) {
            const double *here = plan->curves + (ptrdiff_t)i * DW_BAKE_CURVES + c;
            table[DW_BAKE_TABLE * i + to[c]] = here[0];
            table[DW_BAKE_TABLE * i + rise[c]] = i + 1 < plan->curve_rows ? here[DW_BAKE_CURVES] - here[0] : 0.0;
        }
}

WIDE void dw_bake(const dw_bake_plan *plan, const dw_bake_block *block, const double *table, double *work) {
    bake b;
    baking c;
    start(&b, plan, block, table, work);
    begin(&b, &c, block);
    while (c.left > 0) advance(&b, &c, block);
}
