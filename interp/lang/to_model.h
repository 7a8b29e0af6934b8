/* to_model.h - a script's document as the plain structs of model/. */
#ifndef LANG_TO_MODEL_H
#define LANG_TO_MODEL_H

#include <lua.h>

#include "base/diag.h"
#include "model/job.h"

/* Reads the document data at `index` (what core.main.finish returns) into *document, whose arena and why-book are
 * already there. A recipe by itself is only named by its kind. To be called only when the document has no error;
 * what remains (money too fine) goes to diags. */
void to_model(lua_State *L, int index, Document *document, Diags *diags);

#endif
