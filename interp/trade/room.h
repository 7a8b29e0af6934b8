/* room.h - a gas or vapour in a room with fresh air, taken as well mixed.
 *
 *     steady  Cs = G k / Q
 *     rising and falling  C(t) = Cs + (C0 - Cs) exp(-Q t / (k V));     without air C(t) = C0 + G t / V
 *
 * G is the flow of gas (m3/h), Q of fresh air (m3/h), V the room (m3), k a mixing factor of 1 (perfect) to 10 (dead
 * corners; from memory, industrial-hygiene practice). Mass balance, for dilute gas. Heavy vapour near its source
 * is far above the room's average: a model of the room never clears a task, a meter does. */
#ifndef TRADE_ROOM_H
#define TRADE_ROOM_H

#include "trade/trade.h"

typedef struct {
  double volume_m3;         /* above 0, at most 1e7 */
  double fresh_air_m3_h;    /* 0..1e8 */
  double mixing;            /* 1..10 */
} Room;

typedef struct {
  double steady_ppm;  /* infinite without fresh air */
  double end_ppm;     /* when the emission stops: the peak, if it began lower */
  double average_ppm; /* over the emission */
} RoomAir;

/* Emission of `gas_m3_h` (0..1e5) for `hours` (above 0, at most 1000) into air at `start_ppm` (0..1e6). An answer
 * over 100,000 ppm is past what the dilute balance says and is refused with TRADE_NO_ANSWER. */
bool room_air(const Room *room, double gas_m3_h, double hours, double start_ppm, RoomAir *out, TradeError *error);

/* Fresh air that keeps the steady level at `goal_ppm` (above 0): Q = G k / goal. */
bool room_air_needed(const Room *room, double gas_m3_h, double goal_ppm, double *fresh_air_m3_h, TradeError *error);

/* Hours of clearing from start to goal once the emission has stopped: t = k V / Q * ln(start / goal). */
bool room_clears_in(const Room *room, double start_ppm, double goal_ppm, double *hours, TradeError *error);

/* Volume of a mole of gas at 1 atm, L: 22.414 * (T + 273.15) / 273.15; T in -30..60 degC. */
bool room_molar_volume(double temperature_c, double *litres_mol, TradeError *error);

extern const TradeFormula room_formulas[];

#endif
