/*
 * The bench's measure of the machine: what "lift and circuit of a fresh design" takes in C (cc -O3), with no care for
 * design reuse. Per design: spectrum of the winding, reflection of the plate, lift-off current, floating gap by
 * Newton's method on ln F, reflected inductance and resistance; 128 nodes of Gauss-Legendre quadrature in k.
 * Formulas: docs/decisions/physics.md; int x J1(x) dx is read from a table by cubic Hermite interpolation.
 * Prints microseconds a design.
 */
#include <math.h>
#include <stdio.h>
#include <time.h>

enum { PANELS = 16, POINTS = 8, NODES = PANELS * POINTS, CELLS = 13000, DESIGNS = 50000 };

static const double PI = 3.14159265358979323846;
static const double MU0 = 4e-7 * 3.14159265358979323846;
static const double GRAVITY = 9.80665;
/* the largest k times outer radius, and where the table of moments ends */
static const double FARTHEST = 100.0, TABLE_END = 130.0;

static double moment[CELLS + 1], slope[CELLS + 1];
static double place[NODES], weight[NODES];

struct field {
  double k[NODES];
  /* inductance of the free winding a node, H; real and imaginary part of the reflection */
  double inductance[NODES], re[NODES], im[NODES];
};

static void legendre(double *x, double *w) {
  for (int i = 0; i < POINTS; i++) {
    double root = cos(PI * (i + 0.75) / (POINTS + 0.5)), derivative = 1;
    for (int n = 0; n < 20; n++) {
      double before = 1, value = root;
      for (int order = 2; order <= POINTS; order++) {
        double next = ((2 * order - 1) * root * value - (order - 1) * before) / order;
        before = value;
        value = next;
      }
      derivative = POINTS * (before - root * value) / (1 - root * root);
      root -= value / derivative;
    }
    x[i] = root;
    w[i] = 2 / ((1 - root * root) * derivative * derivative);
  }
}

static void make_tables(void) {
  const double step = TABLE_END / CELLS;
  for (int i = 0; i <= CELLS; i++) slope[i] = i * step * j1(i * step);
  for (int i = 1; i <= CELLS; i++) {
    double middle = (i - 0.5) * step;
    moment[i] = moment[i - 1] + step / 6 * (slope[i - 1] + 4 * middle * j1(middle) + slope[i]);
  }
  double x[POINTS], w[POINTS];
  legendre(x, w);
  for (int p = 0; p < PANELS; p++) {
    double from = FARTHEST * pow((double)p / PANELS, 1.5), to = FARTHEST * pow((p + 1.0) / PANELS, 1.5);
    for (int q = 0; q < POINTS; q++) {
      place[p * POINTS + q] = (from + to) / 2 + (to - from) / 2 * x[q];
      weight[p * POINTS + q] = (to - from) / 2 * w[q];
    }
  }
}

static double moment_at(double x) {
  const double step = TABLE_END / CELLS;
  int cell = (int)(x / step);
  double t = x / step - cell, t2 = t * t, t3 = t2 * t;
  return moment[cell] * (2 * t3 - 3 * t2 + 1) + step * slope[cell] * (t3 - 2 * t2 + t) +
         moment[cell + 1] * (3 * t2 - 2 * t3) + step * slope[cell + 1] * (t3 - t2);
}

static void fill_winding(struct field *f, double turns, double inner, double outer, double height) {
  double density = turns / ((outer - inner) * height);
  for (int i = 0; i < NODES; i++) {
    double k = place[i] / outer;
    double radial = (moment_at(k * outer) - moment_at(k * inner)) / (k * k);
    double source = density * radial * (1 - exp(-k * height)) / k;
    f->k[i] = k;
    f->inductance[i] = PI * MU0 * source * source * weight[i] / outer;
  }
}

/* (k^2 - g^2)(1 - e) / ((k + g)^2 - (k - g)^2 e) with g = sqrt(k^2 + i omega mu0 sigma), e = exp(-2 g t) */
static void fill_reflection(struct field *f, double conductivity, double thickness, double omega) {
  double skin = omega * MU0 * conductivity;
  for (int i = 0; i < NODES; i++) {
    double k = f->k[i], k2 = k * k;
    double re = sqrt((sqrt(k2 * k2 + skin * skin) + k2) / 2), im = skin / (2 * re);
    double fall = exp(-2 * re * thickness);
    double er = fall * cos(2 * im * thickness), ei = -fall * sin(2 * im * thickness);
    double sum = k + re, rest = k - re;
    double ar = sum * sum - im * im, ai = 2 * sum * im, br = rest * rest - im * im, bi = -2 * rest * im;
    double dr = ar - (br * er - bi * ei), di = ai - (br * ei + bi * er), square = dr * dr + di * di;
    double nr = -skin * ei, ni = -skin * (1 - er);
    f->re[i] = (nr * dr + ni * di) / square;
    f->im[i] = (ni * dr - nr * di) / square;
  }
}

/* force per ampere squared, N/A2, and how it changes with the gap */
static double force(const struct field *f, double gap, double *change) {
  double sum = 0, steep = 0;
  for (int i = 0; i < NODES; i++) {
    double part = -f->inductance[i] * f->re[i] * f->k[i] * exp(-2 * f->k[i] * gap);
    sum += part;
    steep -= 2 * f->k[i] * part;
  }
  *change = steep;
  return sum;
}

int main(void) {
  static struct field f;
  struct timespec start, end;
  double total = 0;
  make_tables();
  clock_gettime(CLOCK_MONOTONIC, &start);
  for (int i = 0; i < DESIGNS; i++) {
    double part = (double)i / DESIGNS, current = 20 + i % 10, mass = 2.5, gap = 0.002, change;
    fill_winding(&f, 200 + i % 100, 0.05, 0.15 + 0.05 * part, 0.015);
    fill_reflection(&f, 3.5e7, 0.003 + 0.01 * part, 2 * PI * 60);
    double at = force(&f, gap, &change), target = mass * GRAVITY / (current * current);
    total += sqrt(mass * GRAVITY / at);
    for (int n = 0; n < 30 && at > target; n++) {
      double step = -log(at / target) * at / change;
      gap += step;
      at = force(&f, gap, &change);
      if (fabs(step) < 1e-9) break;
    }
    double inductance = 0, resistance = 0;
    for (int k = 0; k < NODES; k++) {
      double coupled = f.inductance[k] * exp(-2 * f.k[k] * gap);
      inductance += coupled * f.re[k];
      resistance -= coupled * f.im[k];
    }
    total += gap + inductance + resistance;
  }
  clock_gettime(CLOCK_MONOTONIC, &end);
  double seconds = (end.tv_sec - start.tv_sec) + (end.tv_nsec - start.tv_nsec) / 1e9;
  /* the sum keeps the compiler from leaving work out */
  printf("%.4f %.6f\n", seconds / DESIGNS * 1e6, total);
  return 0;
}
