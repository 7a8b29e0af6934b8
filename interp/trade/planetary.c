/* planetary.c - kinematics of a planetary head, gathered in strips across its swath. */
#include "trade/planetary.h"

#include <math.h>

static const double TURN = 2 * 3.14159265358979323846;
static const double GOLDEN = 0.61803398874989484820;

/* A tool face as rings of points, each ring of the same area. */
enum { RINGS = 3, POINTS_A_RING = 6, FACE_POINTS = RINGS * POINTS_A_RING, POINTS_IN_ALL = 1 << 20 };

const TradeFormula planetary_formulas[] = {
  { "planetary.density",
    "density(x) = mean over time of the speed of tool points at x / (travel x strip width)",
    { TRADE_COMPUTED, "plane kinematics; a single ring gives 1 / sqrt(R^2 - x^2)" },
    "Metres of tool path on each m2 of floor in strips across the swath of one pass, and the mean speed of the "
    "tool faces over the floor in m/s." },
  { "planetary.field",
    "density of lanes a pitch apart = sum of the passes that reach a strip",
    { TRADE_COMPUTED, "superposition" },
    "Mean and coefficient of variation of the density over a field of lanes side by side." },
  { 0 }
};

typedef struct {
  double x, y;
} Vector;

static Vector polar(double radius, double angle)
{
  double x = radius * cos(angle), y = radius * sin(angle);
  return (Vector){ x, y };
}

/* What the instants have in common, and what is gathered from them: speeds by strip, and in all. */
typedef struct {
  const Planetary *head;
  double swath_m, head_rate, planet_rate; /* rad/s */
  Vector face[FACE_POINTS];               /* of a tool whose planet has not turned, from the planet's axis */
  double strip[PLANETARY_STRIPS], total;
} Gathering;

static void lay_out_face(Gathering *g)
{
  for (int i = 0; i < FACE_POINTS; i++) {
    int ring = i / POINTS_A_RING;
    double radius = g->head->tool_radius_m * sqrt((ring + 0.5) / RINGS);
    g->face[i] = polar(radius, TURN * (i % POINTS_A_RING + ring / (double)RINGS) / POINTS_A_RING);
    g->face[i].x += g->head->tool_orbit_m;
  }
}

static void gather(Gathering *g, double x, double speed)
{
  int strip = (int)floor((x / g->swath_m + 0.5) * PLANETARY_STRIPS);
  strip = strip < 0 ? 0 : strip >= PLANETARY_STRIPS ? PLANETARY_STRIPS - 1 : strip; /* rounding at the rim */
  g->strip[strip] += speed;
  g->total += speed;
}

/* One tool at one instant: its planet's axis, and the angle its face has turned by. */
static void gather_tool(Gathering *g, Vector axis, double angle)
{
  Vector turned = polar(1, angle);
  Vector carried = { -g->head_rate * axis.y, g->head_rate * axis.x + g->head->travel_m_min / 60 };
  for (int i = 0; i < FACE_POINTS; i++) {
    Vector f = g->face[i];
    Vector arm = { f.x * turned.x - f.y * turned.y, f.x * turned.y + f.y * turned.x };
    Vector speed = { carried.x - g->planet_rate * arm.y, carried.y + g->planet_rate * arm.x };
    gather(g, axis.x + arm.x, sqrt(speed.x * speed.x + speed.y * speed.y));
  }
}

static void gather_instant(Gathering *g, double time_s)
{
  double head_angle = fmod(g->head_rate * time_s, TURN), planet_angle = fmod(g->planet_rate * time_s, TURN);
  for (int p = 0; p < g->head->planets; p++) {
    Vector axis = polar(g->head->orbit_m, head_angle + TURN * p / g->head->planets);
    for (int t = 0; t < g->head->tools; t++) gather_tool(g, axis, planet_angle + TURN * t / g->head->tools);
  }
}

static bool check_planetary(const Planetary *h, TradeError *error)
{
  if (!trade_in_range(error, "orbit_m", h->orbit_m, 0, 5) || !trade_in_range(error, "planets", h->planets, 1, 12) ||
      !trade_in_range(error, "tool_orbit_m", h->tool_orbit_m, 0, 5) ||
      !trade_in_range(error, "tools", h->tools, 1, 24) ||
      !trade_in_range(error, "tool_radius_m", h->tool_radius_m, 0, 5) ||
      !trade_in_range(error, "head_rpm", h->head_rpm, -5000, 5000) ||
      !trade_in_range(error, "planet_rpm", h->planet_rpm, -5000, 5000) ||
      !trade_positive(error, "travel_m_min", h->travel_m_min) ||
      !trade_in_range(error, "travel_m_min", h->travel_m_min, 0, 1000) ||
      !trade_positive(error, "swath_m", h->orbit_m + h->tool_orbit_m + h->tool_radius_m))
    return false;
  return h->head_rpm != 0 || h->planet_rpm != 0 ||
         trade_refuse(error, TRADE_DEGENERATE, "head_rpm", 0, "neither the head nor the planets turn");
}

static double variation_of(const double *values, size_t count, double mean)
{
  double squares = 0;
  for (size_t i = 0; i < count; i++) squares += (values[i] - mean) * (values[i] - mean);
  return sqrt(squares / (double)count) / mean;
}

bool planetary_pass(const Planetary *head, PlanetaryPass *out, TradeError *error)
{
  if (!check_planetary(head, error)) return false;
  PlanetaryPass pass = { .swath_m = 2 * (head->orbit_m + head->tool_orbit_m + head->tool_radius_m) };
  pass.strip_m = pass.swath_m / PLANETARY_STRIPS;
  int tools = head->planets * head->tools, instants = POINTS_IN_ALL / (tools * FACE_POINTS);
  double fastest_rpm = fmax(fabs(head->head_rpm), fabs(head->planet_rpm));
  double step_s = GOLDEN / (fastest_rpm / 60);
  Gathering g = { .head = head, .swath_m = pass.swath_m, .head_rate = head->head_rpm / 60 * TURN,
                  .planet_rate = head->planet_rpm / 60 * TURN };
  lay_out_face(&g);
  for (int i = 0; i < instants; i++) gather_instant(&g, (i + 0.5) * step_s);

  /* Speed summed over instants and points -> time average over whole tools -> path per area. */
  double scale = 1.0 / ((double)instants * FACE_POINTS * head->travel_m_min / 60 * pass.strip_m);
  for (int i = 0; i < PLANETARY_STRIPS; i++) pass.density[i] = g.strip[i] * scale;
  pass.mean = g.total * scale / PLANETARY_STRIPS;
  pass.variation = variation_of(pass.density, PLANETARY_STRIPS, pass.mean);
  pass.speed_m_s = g.total / ((double)instants * tools * FACE_POINTS);
  *out = pass;
  return true;
}

/* Path laid down from the left edge of the swath to x, per metre of travel. */
static double laid_to(const PlanetaryPass *pass, double x_m)
{
  double place = x_m / pass->strip_m, sum = 0;
  for (int i = 0; i < PLANETARY_STRIPS && i < place; i++) sum += pass->density[i] * fmin(place - i, 1);
  return sum * pass->strip_m;
}

bool planetary_field(const PlanetaryPass *pass, double pitch_m, PlanetaryField *out, TradeError *error)
{
  if (!trade_positive(error, "pitch_m", pitch_m) || !trade_in_range(error, "pitch_m", pitch_m, 0, pass->swath_m))
    return false;
  double lanes = ceil(pass->swath_m / pitch_m); /* that reach one strip */
  if (!trade_in_range(error, "lanes", lanes, 1, 1000)) return false;
  double density[PLANETARY_STRIPS], mean = 0, slice_m = pitch_m / PLANETARY_STRIPS;
  for (int i = 0; i < PLANETARY_STRIPS; i++) {
    density[i] = 0;
    for (int lane = 0; lane < lanes; lane++) {
      double left_m = i * slice_m + lane * pitch_m;
      density[i] += (laid_to(pass, left_m + slice_m) - laid_to(pass, left_m)) / slice_m;
    }
    mean += density[i] / PLANETARY_STRIPS;
  }
  *out = (PlanetaryField){ mean, variation_of(density, PLANETARY_STRIPS, mean) };
  return true;
}
