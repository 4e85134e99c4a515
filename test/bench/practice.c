/* The same arithmetic as src/core/practice/vessel.ts, vessel-step.ts and load.ts, to be compared in speed.
 * Usage: practice INPUT REPEATS. INPUT holds doubles: seconds, second of closing, second of heat-off, watts,
 * count of lumps, capacity, then the vessel's parts and start, then lambda's closing shares and mode shares.
 * Prints the median nanoseconds of a pass, and its results. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define WATER_CP 4.22
#define AIR_R 0.287055
#define AIR_CV (1.006 - 0.287055)
#define STEAM_R 0.4615228
#define ZERO_K 273.15

static double saturation_kpa(double celsius) {
  const double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
               n4 = 0.1202082470247e5, n5 = -0.32325550322333e7, n6 = 0.1491510861353e2,
               n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
               n10 = 0.65017534844798e3;
  if (!(celsius >= 0 && celsius <= 373.946)) abort();
  double theta = celsius + 273.15 + n9 / (celsius - (n10 - 273.15));
  double a = (theta + n1) * theta + n2, half_b = (n3 / 2 * theta + n4 / 2) * theta + n5 / 2;
  double c = (n6 * theta + n7) * theta + n8, root = c / (sqrt(half_b * half_b - a * c) - half_b);
  double square = root * root;
  return square * square * 1000;
}

static double latent(double t) { return 2256.47 - 2.68 * (t - 100) - 0.0026 * (t - 100) * (t - 100); }

typedef struct {
  double metal, room, loss, ambient, atmosphere, vent, bleed, leak, in, weight, lift;
  int open;
  double energy, water, air, bag_air, bag_gas, celsius, gas, liquid, steam, steam_kpa, air_kpa, total;
  double heat_sum, loss_sum, load_sum, out_sum, in_sum, water_out, air_out, air_in;
} vessel;

typedef struct { double energy, slope, steam; } at_t;

static at_t energy_at(const vessel *v, double t) {
  double kelvin = t + ZERO_K, l = latent(t);
  double fixed = v->metal + v->water * WATER_CP + v->air * AIR_CV;
  double saturated = saturation_kpa(t) * v->gas / (STEAM_R * kelvin);
  double steam = saturated < v->water ? saturated : v->water;
  double gain = l - STEAM_R * kelvin;
  double grows = saturated < v->water ? steam * (l / (STEAM_R * kelvin * kelvin) - 1 / kelvin) * gain : 0;
  double bends = -2.68 - 0.0052 * (t - 100) - STEAM_R;
  at_t r = {fixed * t + steam * gain, fixed + steam * bends + grows, steam};
  return r;
}

static void settle(vessel *v) {
  double gas = (v->room - v->liquid / 0.958) / 1000;
  v->gas = gas > 0.0005 ? gas : 0.0005;
  double t = v->celsius;
  at_t at = energy_at(v, t);
  for (int turn = 0; turn < 8; turn++) {
    double missing = v->energy - at.energy;
    if (fabs(missing) < 1e-6) break;
    t += missing / at.slope;
    at = energy_at(v, t);
  }
  v->celsius = t;
  v->steam = at.steam;
  v->liquid = v->water - at.steam;
  double kelvin = t + ZERO_K;
  v->steam_kpa = at.steam * STEAM_R * kelvin / v->gas;
  v->air_kpa = v->air * AIR_R * kelvin / v->gas;
  v->total = v->steam_kpa + v->air_kpa;
}

static void add_air(vessel *v, double kg, double t) {
  double carried = kg * (AIR_CV * t + AIR_R * (t + ZERO_K));
  v->air += kg;
  v->energy += carried;
  v->air_in += kg;
  v->in_sum += carried;
}

static void step(vessel *v, double *lump, const double *closes, const double *share, int lumps,
                 double capacity, double watts) {
  double above = v->celsius - v->ambient;
  double convection = v->loss * pow(fabs(above) / 99, 0.25);
  double loss = (convection + (watts > 0 ? 1 : 0)) * above / 1000, heat = watts / 1000, gained = 0;
  for (int n = 0; n < lumps; n++) {
    double rise = (v->celsius - lump[n]) * closes[n];
    lump[n] += rise;
    gained += share[n] * rise;
  }
  double taken = gained * capacity;
  v->energy += heat - loss - taken;
  v->heat_sum += heat;
  v->loss_sum += loss;
  v->load_sum += taken;
  if (v->bag_air > 0) {
    double mean = 0;
    for (int n = 0; n < lumps; n++) mean += share[n] * lump[n];
    double stays = (v->total - saturation_kpa(mean)) * v->bag_gas / (AIR_R * (mean + ZERO_K));
    if (stays < 0) stays = 0;
    if (stays < v->bag_air) {
      double leaves = v->bag_air - stays;
      v->bag_air = stays;
      add_air(v, leaves, mean);
    }
  }
  double gauge = v->total - v->atmosphere, pa = fabs(gauge) * 1000, bound = pa > 20 ? pa : 20;
  if (gauge > 0) {
    double gas = v->steam + v->air, lift = (gauge - v->lift) / 3;
    lift = lift < 0 ? 0 : lift > 1 ? 1 : lift;
    double area = v->bleed + v->leak + (v->open ? v->vent : 0) + lift * v->weight;
    double per_pa = area * sqrt(2 * (gas / v->gas) / bound);
    double air_share = v->air / gas, kelvin = v->celsius + ZERO_K, l = latent(v->celsius);
    double cap = v->metal + v->water * WATER_CP;
    double falls = v->liquid > 0 ? l * v->steam_kpa * l / (STEAM_R * kelvin * kelvin * cap)
                                 : v->steam_kpa / (v->steam > 1e-9 ? v->steam : 1e-9);
    double per_kg = 1000 * (v->air_kpa / gas + (1 - air_share) * falls);
    double left = per_pa * pa / (1 + per_pa * per_kg);
    double air = left * air_share < 0.9 * v->air ? left * air_share : 0.9 * v->air;
    double steam = left * (1 - air_share) < v->water ? left * (1 - air_share) : v->water;
    double carried = steam * (WATER_CP * v->celsius + l) + air * (AIR_CV * v->celsius + AIR_R * kelvin);
    v->water -= steam;
    v->air -= air;
    v->energy -= carried;
    v->water_out += steam;
    v->air_out += air;
    v->out_sum += carried;
  } else {
    double room_k = v->ambient + ZERO_K, density = v->atmosphere / (AIR_R * room_k);
    double per_pa = (v->in + (v->open ? v->vent : 0)) * sqrt(2 * density / bound);
    double per_kg = 1000 * AIR_R * (v->celsius + ZERO_K) / v->gas;
    add_air(v, per_pa * pa / (1 + per_pa * per_kg), v->ambient);
  }
  settle(v);
}

static int by_size(const void *a, const void *b) {
  double d = *(const double *)a - *(const double *)b;
  return d < 0 ? -1 : d > 0;
}

int main(int argc, char **argv) {
  if (argc != 3) return 2;
  static double in[256], times[256];
  FILE *file = fopen(argv[1], "rb");
  if (!file || fread(in, sizeof(double), 256, file) < 20) return 1;
  int repeats = atoi(argv[2]);
  long seconds = (long)in[0], shut = (long)in[1], off = (long)in[2];
  double watts = in[3], capacity = in[5], celsius = 0, water = 0, mean = 0;
  int lumps = (int)in[4];
  const double *p = in + 6, *closes = in + 26, *share = closes + lumps;
  if (repeats > 256 || lumps > 64) return 1;
  for (int pass = 0; pass < repeats; pass++) {
    struct timespec a, b;
    double lump[64];
    clock_gettime(CLOCK_MONOTONIC, &a);
    vessel v = {p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], p[8], p[9], p[10], 1,
                p[11], p[12], p[13], p[14], p[15], p[16], 0, p[12], 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0};
    settle(&v);
    for (int n = 0; n < lumps; n++) lump[n] = p[16];
    for (long t = 0; t < seconds; t++) {
      if (t == shut) v.open = 0;
      step(&v, lump, closes, share, lumps, capacity, t < off ? watts : 0);
    }
    clock_gettime(CLOCK_MONOTONIC, &b);
    times[pass] = (b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec);
    celsius = v.celsius;
    water = v.water;
    mean = 0;
    for (int n = 0; n < lumps; n++) mean += share[n] * lump[n];
  }
  qsort(times, repeats, sizeof(double), by_size);
  printf("%.0f %.17g %.17g %.17g\n", times[repeats / 2], celsius, water, mean);
  return 0;
}
