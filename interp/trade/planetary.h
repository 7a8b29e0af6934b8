/* planetary.h - how evenly a planetary head works the floor across its swath.
 *
 * A head turns about its axis and carries planets, each turning about its own and carrying tools in a ring, while
 * the machine travels. Every point of a tool face then moves with
 *
 *     velocity = travel + head rate x (planet axis - head axis) + planet rate x (point - planet axis)
 *
 * and the path it lays down, gathered in strips across the swath, is the density of sliding: metres of tool path on
 * each square metre of floor. Plane kinematics, computed; it knows nothing of pressure, tilt or wear. The time
 * average is a sum over instants a fixed step apart (a golden section of the fastest turn, so that no angle is
 * favoured); about a million points of tool face, some 10 ms, whatever the head. */
#ifndef TRADE_PLANETARY_H
#define TRADE_PLANETARY_H

#include "trade/trade.h"

typedef struct {
  double orbit_m;       /* planets' axes from the head's; 0 for a plate with one planet; 0 to 5 */
  int planets;          /* 1 to 12, evenly spaced */
  double tool_orbit_m;  /* tools' centres from their planet's axis; 0 to 5 */
  int tools;            /* on each planet, 1 to 24, evenly spaced */
  double tool_radius_m; /* round tools; 0 to 5 */
  double head_rpm, planet_rpm; /* as seen from the floor, -5000 to 5000, not both 0; opposite signs turn opposite */
  double travel_m_min;  /* above 0, to 1000 */
} Planetary;

enum { PLANETARY_STRIPS = 64 };

typedef struct {
  double swath_m;    /* 2 (orbit + tool orbit + tool radius), above 0 */
  double strip_m;    /* swath / PLANETARY_STRIPS */
  double density[PLANETARY_STRIPS]; /* m of tool path per m2, left to right */
  double mean;       /* of the density */
  double variation;  /* standard deviation over the mean, across the swath: 0 is even */
  double speed_m_s;  /* mean speed of tool faces over the floor */
} PlanetaryPass;

/* One pass over one lane. Errors: the fields by name; "swath_m" if everything has radius 0. */
bool planetary_pass(const Planetary *head, PlanetaryPass *out, TradeError *error);

typedef struct {
  double mean, variation; /* of the density of side by side lanes, across one pitch */
} PlanetaryField;

/* A field of lanes a pitch apart. 0 < pitch_m <= swath: wider lanes would leave strips bare. */
bool planetary_field(const PlanetaryPass *pass, double pitch_m, PlanetaryField *out, TradeError *error);

extern const TradeFormula planetary_formulas[];

#endif
