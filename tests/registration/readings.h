/* Made-up hoopings: marks, and readings of them with the scatter of drawing and reading. */
#pragma once

#include <math.h>

#include "registration/correction.h"

#define SIGMA 0.35

/* Box and Muller 1958. */
static inline double
normal (void)
{
  return sqrt (-2 * log (1 - g_test_rand_double ())) * cos (2 * G_PI * g_test_rand_double ());
}

static inline double
between (double low, double high)
{
  return g_test_rand_double_range (low, high);
}

static inline HwPoint
point_between (double low, double high)
{
  double x = between (low, high);

  return (HwPoint){ x, between (low, high) };
}

static inline HwPoint
way_of_length (double length)
{
  return hw_point_turn ((HwPoint){ length, 0 }, between (-180, 180));
}

/* A hooping as it really lies: at = stretch R(turn) design + shift. */
typedef struct
{
  double turn;
  HwPoint shift;
  double stretch; /* 1: none */
} Lie;

static inline void
read_marks (HwReading *readings, const HwPoint *marks, guint n, Lie lie, double sigma)
{
  for (guint i = 0; i < n; i++)
    {
      HwPoint p = hw_point_turn (marks[i], lie.turn);

      readings[i] = (HwReading){ .letter = { (char)('A' + i), '\0' }, .design = marks[i] };
      readings[i].at = (HwPoint){ lie.stretch * p.x + lie.shift.x + sigma * normal (),
                                  lie.stretch * p.y + lie.shift.y + sigma * normal () };
    }
}

static inline Lie
lie_set_by_hand (void)
{
  return (Lie){ between (-10, 10), way_of_length (between (0, 15)), 1 };
}

static const HwPoint corners[] = { { -60, -80 }, { 60, -80 }, { 60, 80 }, { -60, 80 } };
