#include "report/cautions.h"

#include <string.h>

static const char *const last[LANGUAGES] = {
  "This list is not complete. Product data sheets, the machine's instructions, local codes and licensed practice "
  "come first.",
  "Esta lista no está completa. Antes valen las fichas de los productos, las instrucciones de la máquina, las "
  "normas del lugar y la práctica con licencia.",
};

static bool frees_dust(const Step *s)
{
  return s->word == STEP_GRIND || s->word == STEP_HONE || s->word == STEP_POLISH || s->word == STEP_PATCH;
}
static bool is_densifier(const Step *s) { return s->word == STEP_DENSIFY; }
static bool is_colour(const Step *s) { return s->word == STEP_DYE || s->word == STEP_STAIN; }
static bool is_coating(const Step *s)
{
  return s->word == STEP_GUARD || s->word == STEP_FILL || s->word == STEP_GROUT;
}
static bool is_burnish(const Step *s) { return s->word == STEP_BURNISH; }
static bool is_wet(const Step *s)
{
  return s->wet || s->word == STEP_COLLECT || (s->word == STEP_CLEAN && s->with && strcmp(s->with, "water") == 0);
}

static const struct {
  bool (*calls)(const Step *step);
  const char *text[LANGUAGES];
} cautions[] = {
  { frees_dust,
    { "Silica dust: cutting concrete frees respirable crystalline silica. Water or a dust collector at the tool, "
      "and respirators, as the written exposure plan and the law of the place ask.",
      "Polvo de sílice: al cortar concreto se libera sílice cristalina respirable. Agua o aspiración en la "
      "herramienta, y respiradores, como pidan el plan escrito de exposición y la ley del lugar." } },
  { is_densifier,
    { "Alkaline densifier: silicates burn skin and eyes and etch glass and metal. Protection, first aid and "
      "spills by the product data sheet.",
      "Densificador alcalino: los silicatos queman piel y ojos y atacan vidrio y metal. Protección, primeros "
      "auxilios y derrames según la ficha del producto." } },
  { is_colour,
    { "Dye or stain: may carry a flammable solvent or acid. Read the product data sheet before opening it: "
      "ventilation, ignition sources, protection, waste.",
      "Tinte o colorante: puede llevar disolvente inflamable o ácido. Leer la ficha del producto antes de "
      "abrirlo: ventilación, fuentes de ignición, protección, residuos." } },
  { is_coating,
    { "Guard, grout and filler: vapour, skin contact and slip while wet, by the product data sheet.",
      "Protector, lechada y relleno: vapores, contacto con la piel y resbalones mientras estén frescos, según la "
      "ficha del producto." } },
  { is_burnish,
    { "Burnisher: an engine gives off carbon monoxide indoors; a pad can throw grit and burn the floor. Measured "
      "air, ventilation and limits by local code.",
      "Bruñidora: un motor desprende monóxido de carbono en interiores; un disco puede lanzar partículas y quemar "
      "el piso. Aire medido, ventilación y límites según las normas del lugar." } },
  { is_wet,
    { "Wet floor and slurry: slippery, and water near cords wants protected circuits. Slurry is alkaline: keep it "
      "out of drains, dispose of it as local code asks.",
      "Piso mojado y lodo: resbala, y el agua cerca de los cables pide circuitos protegidos. El lodo es alcalino: "
      "que no llegue a los desagües; eliminarlo como pidan las normas del lugar." } },
};

size_t cautions_count(void) { return sizeof cautions / sizeof *cautions; }

const char *caution_for(const Recipe *recipe, size_t index, Language language)
{
  for (int i = 0; i < recipe->step_count; i++)
    if (cautions[index].calls(&recipe->steps[i])) return cautions[index].text[language];
  return NULL;
}

const char *caution_last(Language language) { return last[language]; }
