/* The same arithmetic as src/core/science/steam.ts and heat-penetration.ts, to be compared in speed.
 * Usage: science INPUT REPEATS. INPUT holds doubles: the counts of temperatures, modes and corners, the lag,
 * the start temperature and the step, then temperatures, decay constants, weights, corners (s, C).
 * Prints one line for each kernel: median nanoseconds of a pass, and its results. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

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

typedef struct {
  int count, alive, decay_count;
  double tau, chamber, slope, lag, steady, decay_s;
  const double *lambda, *weight;
  double *lag_weight, *rest, *decay;
} state;

static void advance(state *s, double seconds, double from, double to) {
  if (!(seconds > 0 && seconds < INFINITY) || !isfinite(from) || !isfinite(to)) abort();
  double jump = from - s->chamber, slope = (to - from) / seconds;
  int straight = fabs(slope - s->slope) * seconds <= 1e-11 && fabs(jump) <= 1e-11;
  double kink = s->slope - slope;
  if (!straight) {
    s->slope = slope;
    s->alive = s->count;
    s->steady = 0;
  }
  if (seconds != s->decay_s) {
    s->decay_s = seconds;
    s->decay_count = 0;
  }
  for (int n = s->decay_count; n < s->alive; n++) s->decay[n] = exp(-s->lambda[n] * seconds);
  if (s->alive > s->decay_count) s->decay_count = s->alive;
  double lag = 0;
  if (straight)
    for (int n = 0; n < s->alive; n++) {
      double left = s->rest[n] * s->decay[n];
      s->rest[n] = left;
      lag += left;
    }
  else
    for (int n = 0; n < s->alive; n++) {
      double left = (s->rest[n] + jump * s->weight[n] + kink * s->lag_weight[n]) * s->decay[n];
      s->rest[n] = left;
      lag += left;
    }
  s->lag = lag;
  s->chamber = to;
  s->steady += seconds;
  while (s->alive > 0 && s->lambda[s->alive - 1] * s->steady > 40) s->rest[--s->alive] = 0;
}

static double centre(const state *s) { return s->chamber - s->slope * s->tau - s->lag; }

static double segment_f(double seconds, double from, double to) {
  double minutes = seconds / 60, first = pow(10, (from - 121.1) / 10), x = (to - from) * log(10) / 10;
  return minutes * first * (fabs(x) < 1e-12 ? 1 : expm1(x) / x);
}

static double history(state *s, double start, const double *corners, int count, double step_s) {
  double total = 0, last = 0, before;
  s->alive = 0;
  s->decay_count = 0;
  s->decay_s = -1;
  s->chamber = start;
  s->slope = s->lag = s->steady = 0;
  for (int n = 0; n < s->count; n++) {
    s->rest[n] = 0;
    s->lag_weight[n] = s->weight[n] / s->lambda[n];
  }
  before = centre(s);
  for (int i = 1; i < count; i++) {
    double from_s = corners[2 * i - 2], from = corners[2 * i - 1], span = corners[2 * i] - from_s;
    double rise = corners[2 * i + 1] - from;
    int steps = (int)ceil(span / step_s - 1e-9);
    for (int k = 0; k < steps; k++) {
      advance(s, span / steps, from + rise * ((double)k / steps), from + rise * ((double)(k + 1) / steps));
      double now = centre(s), seconds = from_s + span * (k + 1) / steps;
      total += segment_f(seconds - last, before, now);
      last = seconds;
      before = now;
    }
  }
  return total;
}

static int by_size(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

static double now_ns(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1e9 + t.tv_nsec;
}

static double median(double *times, int repeats) {
  qsort(times, repeats, sizeof *times, by_size);
  return times[repeats / 2];
}

int main(int argc, char **argv) {
  if (argc != 3) return 2;
  FILE *file = fopen(argv[1], "rb");
  int repeats = atoi(argv[2]);
  double head[6];
  if (!file || fread(head, sizeof *head, 6, file) != 6) return 1;
  size_t temperatures = head[0], modes = head[1], corners = head[2];
  size_t all = temperatures + 2 * modes + 2 * corners;
  double *data = malloc(all * sizeof *data), *times = malloc(repeats * sizeof *times);
  if (fread(data, sizeof *data, all, file) != all) return 1;
  double sum = 0;
  for (int r = 0; r < repeats; r++) {
    double begun = now_ns();
    sum = 0;
    for (size_t i = 0; i < temperatures; i++) sum += saturation_kpa(data[i]);
    times[r] = now_ns() - begun;
  }
  printf("%.17g %.17g 0\n", median(times, repeats), sum);
  state s = {.count = modes, .tau = head[3], .lambda = data + temperatures, .weight = data + temperatures + modes};
  s.lag_weight = calloc(modes, sizeof(double));
  s.rest = calloc(modes, sizeof(double));
  s.decay = calloc(modes, sizeof(double));
  double f = 0;
  for (int r = 0; r < repeats; r++) {
    double begun = now_ns();
    f = history(&s, head[4], data + temperatures + 2 * modes, corners, head[5]);
    times[r] = now_ns() - begun;
  }
  printf("%.17g %.17g %.17g\n", median(times, repeats), f, centre(&s));
  return 0;
}
