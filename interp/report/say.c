#include "report/say.h"

#include <string.h>

static const char *const codes[LANGUAGES] = { "en", "es" };

static const char *const messages[SAY_KEYS][LANGUAGES] = {
  [SAY_CREW_SHEET] = { "Crew sheet", "Hoja de trabajo" },
  [SAY_AREA] = { "Area", "Zona" },
  [SAY_AREA_OF] = { "of", "de" },
  [SAY_SIZE] = { "size", "tamaño" },
  [SAY_EDGES] = { "edges", "bordes" },
  [SAY_JOINTS] = { "joints", "juntas" },
  [SAY_RECIPE] = { "recipe", "receta" },
  [SAY_REVISION] = { "revision", "revisión" },
  [SAY_PROMISED] = { "promised", "prometido" },
  [SAY_GLOSS] = { "gloss", "brillo" },
  [SAY_GLOSS_UNIT] = { "GU at 60 degrees", "GU a 60 grados" },
  [SAY_HOURS] = { "hours", "horario" },
  [SAY_HOURS_ONLY] = { "no work and no wet floor outside them", "fuera de él, ni trabajo ni piso mojado" },
  [SAY_STEPS] = { "Steps", "Pasos" },
  [SAY_CLOCK] = { "clock", "reloj" },
  [SAY_MACHINE] = { "machine", "máquina" },
  [SAY_RUN] = { "run", "marcha" },
  [SAY_WET] = { "wet", "en húmedo" },
  [SAY_DRY] = { "dry", "en seco" },
  [SAY_PASSES] = { "passes", "pasadas" },
  [SAY_ONE_PASS] = { "pass", "pasada" },
  [SAY_OVERLAP] = { "overlap", "traslape" },
  [SAY_TRAVEL] = { "travel", "avance" },
  [SAY_BY_HAND] = { "by hand", "a mano" },
  [SAY_SPREAD] = { "spread", "rendimiento" },
  [SAY_COATS] = { "coats", "manos" },
  [SAY_AT_HAND] = { "have at hand", "tener a mano" },
  [SAY_START] = { "start", "empezar" },
  [SAY_WITHIN] = { "after the step before, within", "tras el paso anterior, antes de" },
  [SAY_DWELL] = { "dwell", "reposo" },
  [SAY_KEEP_WET] = { "keep wet", "mantener mojado" },
  [SAY_DRYING] = { "dry for", "secar" },
  [SAY_WAIT] = { "wait", "esperar" },
  [SAY_CREW] = { "crew", "cuadrilla" },
  [SAY_CARE] = { "tool care", "cuidado" },
  [SAY_NOTE] = { "note", "nota" },
  [SAY_READINGS] = { "readings", "lecturas" },
  [SAY_WANTED] = { "wanted", "se pide" },
  [SAY_HOLD] = { "HOLD: stop here until signed", "ALTO: no seguir sin firma" },
  [SAY_NAME] = { "name", "nombre" },
  [SAY_TIME] = { "time", "hora" },
  [SAY_DATE] = { "date", "fecha" },
  [SAY_CAUTIONS] = { "Cautions", "Precauciones" },
  [SAY_WAIVED] = { "Waived", "Excepciones" },
  [SAY_AT_LEAST] = { "at least", "al menos" },
  [SAY_AT_MOST] = { "at most", "como máximo" },
  [SAY_TO] = { "to", "a" },
  [SAY_MORE_READINGS] = { "more on a sheet of their own", "más en hoja aparte" },
  [SAY_FINGERPRINT] = { "fingerprint of the sources", "huella de las fuentes" },
  [SAY_STEP] = { "step", "paso" },
};

static const char *const steps_es[STEP_WORDS] = {
  [STEP_GRIND] = "desbastar",  [STEP_HONE] = "afinar",    [STEP_POLISH] = "pulir",  [STEP_BURNISH] = "bruñir",
  [STEP_COLLECT] = "recoger",  [STEP_CLEAN] = "limpiar",  [STEP_DENSIFY] = "densificar", [STEP_DYE] = "teñir",
  [STEP_STAIN] = "colorear",   [STEP_GROUT] = "lechada",  [STEP_FILL] = "rellenar", [STEP_PATCH] = "parchar",
  [STEP_GUARD] = "proteger",   [STEP_WAIT] = "esperar",   [STEP_CHECK] = "medir",   [STEP_NOTE] = "nota",
};

static const char *const weekdays[7][LANGUAGES] = {
  { "Mon", "lun" }, { "Tue", "mar" }, { "Wed", "mié" }, { "Thu", "jue" }, { "Fri", "vie" }, { "Sat", "sáb" },
  { "Sun", "dom" },
};

static const char *const months[12][LANGUAGES] = {
  { "Jan", "ene" }, { "Feb", "feb" }, { "Mar", "mar" }, { "Apr", "abr" }, { "May", "may" }, { "Jun", "jun" },
  { "Jul", "jul" }, { "Aug", "ago" }, { "Sep", "sep" }, { "Oct", "oct" }, { "Nov", "nov" }, { "Dec", "dic" },
};

/* What a step works with, and what a check reads. */
static const struct {
  const char *en, *es;
} words[] = {
  { "metal", "metal" },
  { "transitional", "transición" },
  { "resin", "resina" },
  { "fibre", "fibra" },
  { "scraper", "rasqueta" },
  { "water", "agua" },
  { "neutral cleaner", "limpiador neutro" },
  { "neutraliser", "neutralizante" },
  { "vacuum", "aspiradora" },
  { "lithium silicate", "silicato de litio" },
  { "sodium silicate", "silicato de sodio" },
  { "potassium silicate", "silicato de potasio" },
  { "colloidal silica", "sílice coloidal" },
  { "acetone dye", "tinte en acetona" },
  { "water dye", "tinte en agua" },
  { "acid stain", "colorante ácido" },
  { "water stain", "colorante al agua" },
  { "cement grout", "lechada de cemento" },
  { "polymer grout", "lechada de polímero" },
  { "stain guard", "protector antimanchas" },
  { "polyurea", "poliurea" },
  { "edges", "bordes" },
  { "gloss 20", "brillo 20" },
  { "gloss 60", "brillo 60" },
  { "gloss 85", "brillo 85" },
  { "image clarity", "nitidez de imagen" },
  { "haze", "velo" },
  { "mohs hardness", "dureza Mohs" },
  { "roughness", "rugosidad" },
  { "relative humidity", "humedad relativa" },
  { "moisture emission", "emisión de humedad" },
  { "wet slip", "resbalamiento en mojado" },
  { "flatness", "planitud" },
  { "levelness", "nivelación" },
  { "surface temperature", "temperatura de la superficie" },
  { "dew point margin", "margen al punto de rocío" },
  { "water absorption", "absorción de agua" },
  { "colour", "color" },
};

const char *say(Language language, SayKey key) { return messages[key][language]; }
const char *say_code(Language language) { return codes[language]; }

const char *say_step(Language language, StepWord word)
{
  return language == LANGUAGE_ES ? steps_es[word] : step_words[word].name;
}

const char *say_weekday(Language language, int weekday) { return weekdays[weekday][language]; }
const char *say_month(Language language, int month) { return months[month - 1][language]; }

const char *say_word(Language language, const char *word)
{
  for (size_t i = 0; i < sizeof words / sizeof *words && language == LANGUAGE_ES; i++)
    if (strcmp(words[i].en, word) == 0) return words[i].es;
  return word;
}
