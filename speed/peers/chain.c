/* The pick chain of speed/src/pick-chain.ts as a plain C loop, one thread: draw, model, tally. gcc -O3 chain.c -lm
   sfc32 (Doty-Humphrey; memory), ziggurat of 128 layers (Marsaglia and Tsang 2000; memory), inverse by Wichura's AS 241 (memory).
   Prints a line a run: draws a second in millions of processor time, mean, share beyond the limit. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static uint32_t a = 1, b = 2, c = 3, d = 4;
static uint32_t kn[128];
static double wn[128], fn[128];

static inline uint32_t word(void) {
  uint32_t t = a + b + d;
  d++;
  a = b ^ (b >> 9);
  b = c + (c << 3);
  c = (c << 21 | c >> 11) + t;
  return t;
}
static inline double uniform(void) { return (word() + 0.5) * 2.3283064365386963e-10; }
static double ziggurat(void) {
  for (;;) {
    int32_t h = (int32_t)word();
    int i = word() & 127;
    uint32_t size = h < 0 ? -(uint32_t)h : (uint32_t)h;
    if (size < kn[i]) return h * wn[i];
    if (i == 0) {
      double x, y;
      do {
        x = -log(uniform()) * 0.29047645161474317;
        y = -log(uniform());
      } while (y + y < x * x);
      return h > 0 ? 3.442619855899 + x : -3.442619855899 - x;
    }
    double x = h * wn[i];
    if (fn[i] + uniform() * (fn[i - 1] - fn[i]) < exp(-.5 * x * x)) return x;
  }
}
static void layers(void) {
  double m = 2147483648., x = 3.442619855899, before = x, v = 9.91256303526217e-3, q = v / exp(-.5 * x * x);
  kn[0] = x / q * m;
  kn[1] = 0;
  wn[0] = q / m;
  wn[127] = x / m;
  fn[0] = 1;
  fn[127] = exp(-.5 * x * x);
  for (int i = 126; i >= 1; i--) {
    x = sqrt(-2 * log(v / x + exp(-.5 * x * x)));
    kn[i + 1] = x / before * m;
    before = x;
    fn[i] = exp(-.5 * x * x);
    wn[i] = x / m;
  }
}
static double inverse(void) {
  double u = uniform(), q = u - .5, r;
  if (fabs(q) <= .425) {
    r = .180625 - q * q;
    return q * (((((((2509.0809287301227 * r + 33430.57558358813) * r + 67265.7709270087) * r + 45921.95393154987) * r + 13731.69376550946) * r + 1971.5909503065513) * r + 133.14166789178438) * r + 3.3871328727963665) /
           (((((((5226.495278852855 * r + 28729.085735721943) * r + 39307.89580009271) * r + 21213.794301586597) * r + 5394.196021424751) * r + 687.1870074920579) * r + 42.31333070160091) * r + 1.);
  }
  r = sqrt(-log(q < 0 ? u : 1 - u));
  double z;
  if (r <= 5) {
    r -= 1.6;
    z = (((((((7.745450142783414e-4 * r + .022723844989269184) * r + .2417807251774506) * r + 1.2704582524523684) * r + 3.6478483247632045) * r + 5.769497221460691) * r + 4.630337846156546) * r + 1.4234371107496835) /
        (((((((1.0507500716444169e-9 * r + 5.475938084995345e-4) * r + .015198666563616457) * r + .14810397642748008) * r + .6897673349851) * r + 1.6763848301838038) * r + 2.053191626637759) * r + 1.);
  } else {
    r -= 5;
    z = (((((((2.0103343992922881e-7 * r + 2.7115555687434876e-5) * r + .0012426609473880784) * r + .026532189526576124) * r + .29656057182850487) * r + 1.7848265399172913) * r + 5.463784911164114) * r + 6.657904643501103) /
        (((((((2.0442631033899397e-15 * r + 1.421511758316446e-7) * r + 1.8463183175100548e-5) * r + 7.868691311456133e-4) * r + .014875361290850615) * r + .1369298809227358) * r + .599832206555888) * r + 1.);
  }
  return q < 0 ? -z : z;
}
static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return t.tv_sec + 1e-9 * t.tv_nsec;
}
#define CHAIN(name, nor)                                                                                              \
  static double name(int n, double *mean) {                                                                           \
    double s = 0;                                                                                                     \
    long beyond = 0;                                                                                                  \
    for (int i = 0; i < n; i++) {                                                                                     \
      double x = .015 * nor() + .017 * nor() + .05 * uniform() + (.012 + .003 * nor()) * sin(6.283185307179586 * uniform()) + \
                 .006 * nor() + .02 * uniform() - .01 + .008 * nor() + .006 * nor() - .025;                           \
      double y = .033 * nor() + .017 * nor() + .1 * uniform() - .05 + .3 * nor() * .0576 + .12 * uniform() - .06;     \
      double r = sqrt(x * x + y * y);                                                                                 \
      s += r;                                                                                                         \
      beyond += r > .15;                                                                                              \
    }                                                                                                                 \
    *mean = s / n;                                                                                                    \
    return (double)beyond / n;                                                                                        \
  }
CHAIN(by_ziggurat, ziggurat)
CHAIN(by_inverse, inverse)

int main(int argc, char **argv) {
  int n = argc > 1 ? atoi(argv[1]) : 1 << 20, inverted = argc > 2 && argv[2][0] == 'i';
  layers();
  for (int i = 0; i < 12; i++) word();
  for (int k = 0; k < 4; k++) {
    double mean, t = now(), p = inverted ? by_inverse(n, &mean) : by_ziggurat(n, &mean);
    printf("%.4f %.6f %.6f\n", n / (now() - t) / 1e6, mean, p);
  }
  return 0;
}
