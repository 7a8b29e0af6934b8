/* paper_html.c - a paper as HTML: no script, no outside file, the same on screen, phone and paper. */
#include <stdlib.h>
#include <string.h>

#include "report/paper.h"

static const char *const style[] = {
  ":root{--ink:#1b1f23;--soft:#59636e;--line:#c9d0d6;--tint:#f2f4f5;--deep:#23404f}\n",
  "*{box-sizing:border-box}\n",
  "html{-webkit-text-size-adjust:100%}\n",
  "body{margin:0 auto;padding:1.6rem 1.2rem 3rem;max-width:52rem;color:var(--ink);background:#fff;",
  "font:16px/1.45 system-ui,'Helvetica Neue',Arial,'DejaVu Sans',sans-serif;overflow-wrap:anywhere}\n",
  "body.large{font-size:20px;line-height:1.4}\n",
  "header{border-bottom:3px solid var(--deep);padding-bottom:.7rem;margin-bottom:1rem}\n",
  "h1{font-size:1.7em;line-height:1.15;margin:0}\n",
  "header p{margin:.35rem 0 0;color:var(--soft)}\n",
  "h2{font-size:1.12em;margin:1.9rem 0 .5rem;padding-bottom:.2rem;border-bottom:1px solid var(--line);",
  "color:var(--deep);break-after:avoid}\n",
  "p{margin:.4rem 0}\n",
  "ul{margin:.4rem 0;padding-left:1.2rem}li{margin:.25rem 0}\n",
  "dl{display:grid;grid-template-columns:minmax(7.5em,max-content) 1fr;gap:.2rem 1.1rem;margin:.5rem 0}\n",
  "dt{color:var(--soft)}dd{margin:0}\n",
  ".price{display:flex;flex-wrap:wrap;align-items:baseline;gap:.1rem 1.2rem;margin:1rem 0;padding:.8rem 1rem;",
  "background:var(--tint);border-left:6px solid var(--deep)}\n",
  ".price span{font-size:1.05em;font-weight:600}\n",
  ".price b{font-size:2em;line-height:1.1;margin-left:auto;font-variant-numeric:tabular-nums}\n",
  ".price small{flex-basis:100%;color:var(--soft)}\n",
  "table{width:100%;border-collapse:collapse;margin:.5rem 0;font-variant-numeric:tabular-nums;table-layout:fixed}\n",
  "thead{display:table-header-group}\n",
  "th,td{padding:.28rem .4rem;text-align:left;vertical-align:top}\n",
  "th{font-size:.8em;font-weight:600;color:var(--soft);border-bottom:1.5px solid var(--deep);vertical-align:bottom}\n",
  "td{border-top:1px solid var(--line)}tr:first-child>td{border-top:0}\n",
  "th:first-child,td:first-child{padding-left:0}th:last-child,td:last-child{padding-right:0}\n",
  ".r{text-align:right}td.r{white-space:nowrap}\n",
  "tr.note td{border-top:0;padding-top:0;font-size:.82em;color:var(--soft)}\n",
  "tr.total td{border-top:1.5px solid var(--deep);font-weight:700}\n",
  "tr{break-inside:avoid}\n",
  ".caution{margin:.5rem 0;padding:.5rem .8rem;border:1.5px solid var(--ink);border-left-width:8px;break-inside:avoid}\n",
  ".hold{margin:.5rem 0;padding:.45rem .8rem;background:var(--ink);color:#fff;font-weight:700;break-inside:avoid;",
  "print-color-adjust:exact;-webkit-print-color-adjust:exact}\n",
  ".step{border-top:1.5px solid var(--ink);margin-top:1rem;padding-top:.5rem;break-inside:avoid}\n",
  ".step h3{font-size:1.1em;margin:0 0 .3rem;display:flex;gap:.6em;align-items:baseline;flex-wrap:wrap}\n",
  ".step h3 i{font-style:normal;font-weight:400}\n",
  ".tick{display:inline-block;width:1em;height:1em;border:1.5px solid var(--ink);flex:none;align-self:center}\n",
  ".blanks{display:flex;flex-wrap:wrap;gap:.5rem;margin:.5rem 0}\n",
  ".blanks span{width:4.6em;height:2em;border:1px solid var(--soft);font-size:.8em;color:var(--soft);padding:0 .25em}\n",
  ".sign{display:flex;flex-wrap:wrap;gap:.4rem 1.6rem;margin:1.6rem 0 .4rem}\n",
  ".sign span{flex:1 1 9em;border-top:1px solid var(--ink);padding-top:.15rem;font-size:.85em;color:var(--soft)}\n",
  ".chart{margin:.6rem 0;font-size:.82em}\n",
  ".chart div{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,3fr);gap:.6rem;align-items:center;",
  "break-inside:avoid}\n",
  ".chart p{position:relative;height:1.35em;margin:.1rem 0;background:var(--tint);overflow:hidden;",
  "print-color-adjust:exact;-webkit-print-color-adjust:exact}\n",
  ".chart p.ticks{background:none;color:var(--soft)}.chart p.ticks s{border-left:1px solid var(--line)}\n",
  ".chart s{position:absolute;top:0;bottom:0;text-decoration:none;white-space:nowrap;padding-left:.2em}\n",
  ".chart s.work{background:var(--deep)}.chart s.wait{background:#9fb4bf}\n",
  ".chart s.work,.chart s.wait{top:18%;bottom:18%;min-width:1.5px;padding:0}\n",
  "footer{margin-top:2.5rem;padding-top:.5rem;border-top:1px solid var(--line);font-size:.75em;color:var(--soft)}\n",
  "@media(max-width:36rem){body{padding:1rem .8rem 2rem}h1{font-size:1.45em}.price b{font-size:1.7em}\n",
  "table.wide,table.wide tbody,table.wide tr,table.wide td{display:block}table.wide colgroup,table.wide thead{display:none}\n",
  "table.wide tr{padding:.35rem 0;border-top:1px solid var(--line)}table.wide tr.note{border-top:0;padding-top:0}\n",
  "table.wide td{border:0!important;padding:.05rem 0;display:flex;gap:1rem;justify-content:space-between;text-align:right}\n",
  "table.wide td:first-child{font-weight:600;justify-content:flex-start;text-align:left}\n",
  "table.wide td[title]:not(:first-child)::before{content:attr(title);color:var(--soft);font-weight:400;",
  "text-align:left;overflow-wrap:normal;flex:none;max-width:45%}\n",
  "table.wide tr.note td{font-weight:400;text-align:left}table.wide td:empty{display:none}\n",
  "dl{grid-template-columns:1fr;gap:0}dd{margin-bottom:.35rem}.chart div{grid-template-columns:1fr;gap:0}}\n",
  "@media print{@page{margin:16mm 15mm}body{max-width:none;padding:0;font-size:10.5pt}body.large{font-size:14pt}\n",
  ".newpage{break-before:page}h2{margin-top:1.3rem}footer{margin-top:1.2rem}}\n",
};

typedef enum { IN_NOTHING, IN_LIST, IN_FACTS, IN_TABLE, IN_TABLE_BODY, IN_CHART } Inside;

static const char *const closings[] = {
  [IN_NOTHING] = "", [IN_LIST] = "</ul>\n", [IN_FACTS] = "</dl>\n", [IN_TABLE] = "</table>\n",
  [IN_TABLE_BODY] = "</tbody></table>\n", [IN_CHART] = "</div>\n",
};

enum { COLUMNS_MOST = 16 };

typedef struct {
  Buf *out;
  Inside inside;
  bool in_step, new_page;
  char side[COLUMNS_MOST]; /* of the table's columns: 'l' or 'r' */
  int columns;
  Buf heads[COLUMNS_MOST]; /* a phone shows them beside each cell */
  Buf foot;
} Html;

static void put_text(Buf *out, const char *text)
{
  for (; *text; text++) {
    switch (*text) {
    case '&': buf_puts(out, "&amp;"); break;
    case '<': buf_puts(out, "&lt;"); break;
    case '>': buf_puts(out, "&gt;"); break;
    case '"': buf_puts(out, "&quot;"); break;
    default: buf_putc(out, *text);
    }
  }
}

static void put_between(Buf *out, const char *before, const char *text, const char *after)
{
  buf_puts(out, before);
  put_text(out, text);
  buf_puts(out, after);
}

static void leave(Html *h)
{
  buf_puts(h->out, closings[h->inside]);
  h->inside = IN_NOTHING;
}

static void leave_step(Html *h)
{
  leave(h);
  if (h->in_step) buf_puts(h->out, "</section>\n");
  h->in_step = false;
}

static void enter(Html *h, Inside inside, const char *opening)
{
  if (h->inside == inside) return;
  leave(h);
  buf_puts(h->out, opening);
  h->inside = inside;
}

/* ---- blocks */

static void begin(Html *h, const Block *b)
{
  put_between(h->out, "<!doctype html>\n<html lang=\"", block_cell(b, 0),
              "\">\n<head>\n<meta charset=\"utf-8\">\n");
  buf_puts(h->out, "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n<link rel=\"icon\" "
                   "href=\"data:,\">\n");
  put_between(h->out, "<title>", block_cell(b, 3), "</title>\n<style>\n");
  for (size_t i = 0; i < sizeof style / sizeof *style; i++) buf_puts(h->out, style[i]);
  put_between(h->out, "</style>\n</head>\n<body class=\"", block_cell(b, 2), "\">\n");
  buf_puts(&h->foot, block_cell(b, 4));
}

static void title(Html *h, const Block *b)
{
  leave_step(h);
  buf_puts(h->out, h->new_page ? "<header class=\"newpage\">" : "<header>");
  h->new_page = false;
  put_between(h->out, "<h1>", block_cell(b, 0), "</h1>");
  if (*block_cell(b, 1)) put_between(h->out, "<p>", block_cell(b, 1), "</p>");
  buf_puts(h->out, "</header>\n");
}

static void price(Html *h, const Block *b)
{
  put_between(h->out, "<div class=\"price\"><span>", block_cell(b, 0), "</span> ");
  put_between(h->out, "<b>", block_cell(b, 1), "</b> ");
  if (*block_cell(b, 2)) put_between(h->out, "<small>", block_cell(b, 2), "</small>");
  buf_puts(h->out, "</div>\n");
}

static void head(Html *h, const Block *b)
{
  leave_step(h);
  put_between(h->out, h->new_page ? "<h2 class=\"newpage\">" : "<h2>", block_cell(b, 0), "</h2>\n");
  h->new_page = false;
}

static void text(Html *h, const Block *b) { put_between(h->out, "<p>", block_cell(b, 0), "</p>\n"); }
static void caution(Html *h, const Block *b)
{
  put_between(h->out, "<div class=\"caution\">", block_cell(b, 0), "</div>\n");
}
static void hold(Html *h, const Block *b)
{
  put_between(h->out, "<div class=\"hold\">", block_cell(b, 0), "</div>\n");
}

static void item(Html *h, const Block *b)
{
  enter(h, IN_LIST, "<ul>\n");
  put_between(h->out, "<li>", block_cell(b, 0), "</li>\n");
}

static void fact(Html *h, const Block *b)
{
  enter(h, IN_FACTS, "<dl>\n");
  put_between(h->out, "<dt>", block_cell(b, 0), "</dt> ");
  put_between(h->out, "<dd>", block_cell(b, 1), "</dd>\n");
}

static void table(Html *h, const Block *b)
{
  leave(h);
  h->columns = block_cells(b) < COLUMNS_MOST ? block_cells(b) : COLUMNS_MOST;
  int sum = 0;
  for (int i = 0; i < h->columns; i++) sum += atoi(block_cell(b, i) + 1);
  buf_puts(h->out, h->columns > 3 ? "<table class=\"wide\">\n<colgroup>" : "<table>\n<colgroup>");
  for (int i = 0; i < h->columns; i++) {
    h->side[i] = block_cell(b, i)[0];
    buf_clear(&h->heads[i]);
    buf_printf(h->out, "<col style=\"width:%d%%\">", sum > 0 ? atoi(block_cell(b, i) + 1) * 100 / sum : 0);
  }
  buf_puts(h->out, "</colgroup>\n");
  h->inside = IN_TABLE;
}

static void enter_body(Html *h)
{
  if (h->inside == IN_TABLE) buf_puts(h->out, "<tbody>\n");
  h->inside = IN_TABLE_BODY;
}

static void heads(Html *h, const Block *b)
{
  buf_puts(h->out, "<thead><tr>");
  for (int i = 0; i < h->columns; i++) {
    buf_puts(&h->heads[i], block_cell(b, i));
    put_between(h->out, h->side[i] == 'r' ? "<th class=\"r\">" : "<th>", block_cell(b, i), "</th>");
  }
  buf_puts(h->out, "</tr></thead>\n");
}

static void put_cell(Html *h, int column, const char *cell)
{
  buf_puts(h->out, h->side[column] == 'r' ? "<td class=\"r\"" : "<td");
  if (h->heads[column].length > 0 && *cell) put_between(h->out, " title=\"", buf_text(&h->heads[column]), "\"");
  put_between(h->out, ">", cell, "</td>");
}

static void row(Html *h, const Block *b)
{
  enter_body(h);
  buf_puts(h->out, b->kind == PAPER_TOTAL ? "<tr class=\"total\">" : "<tr>");
  for (int i = 0; i < h->columns; i++) put_cell(h, i, block_cell(b, i));
  buf_puts(h->out, "</tr>\n");
}

static void note(Html *h, const Block *b)
{
  enter_body(h);
  buf_printf(h->out, "<tr class=\"note\"><td colspan=\"%d\">", h->columns);
  put_between(h->out, "", block_cell(b, 0), "</td></tr>\n");
}

static void chart(Html *h, const Block *b)
{
  leave(h);
  put_between(h->out, "<div class=\"chart\" role=\"img\" aria-label=\"", block_cell(b, 0), "\">\n");
  h->inside = IN_CHART;
}

static double percent(const Block *b, int cell) { return atoi(block_cell(b, cell)) * 100.0 / PAPER_SCALE; }

static void tick(Html *h, const Block *b)
{
  buf_puts(h->out, "<div><span></span><p class=\"ticks\">");
  for (int i = 0; i + 1 < block_cells(b); i += 2) {
    buf_printf(h->out, "<s style=\"left:%.2f%%\">", percent(b, i));
    put_between(h->out, "", block_cell(b, i + 1), "</s>");
  }
  buf_puts(h->out, "</p></div>\n");
}

static void bar(Html *h, const Block *b)
{
  put_between(h->out, "<div><span>", block_cell(b, 0), "</span><p>");
  for (int i = 1; i + 2 < block_cells(b); i += 3)
    buf_printf(h->out, "<s class=\"%s\" style=\"left:%.2f%%;width:%.2f%%\"></s>",
               strcmp(block_cell(b, i + 2), "work") == 0 ? "work" : "wait", percent(b, i), percent(b, i + 1));
  buf_puts(h->out, "</p></div>\n");
}

static void step(Html *h, const Block *b)
{
  leave_step(h);
  put_between(h->out, "<section class=\"step\"><h3><span class=\"tick\"></span> <span>", block_cell(b, 0), ". ");
  put_between(h->out, "", block_cell(b, 1), " ");
  put_between(h->out, "", block_cell(b, 2), "</span> ");
  put_between(h->out, "<i>", block_cell(b, 3), "</i></h3>\n");
  h->in_step = true;
}

static void blanks(Html *h, const Block *b)
{
  buf_puts(h->out, "<div class=\"blanks\">");
  for (int i = 1; i <= atoi(block_cell(b, 0)); i++) buf_printf(h->out, "<span>%d</span>", i);
  buf_puts(h->out, "</div>\n");
}

static void sign(Html *h, const Block *b)
{
  buf_puts(h->out, "<div class=\"sign\">");
  for (int i = 0; i < block_cells(b); i++) put_between(h->out, "<span>", block_cell(b, i), "</span>");
  buf_puts(h->out, "</div>\n");
}

static void new_page(Html *h, const Block *b)
{
  (void)b;
  leave_step(h);
  h->new_page = true;
}

static const struct {
  void (*put)(Html *h, const Block *b);
  bool stays; /* inside the list, table or chart at hand */
} puts_of[PAPER_KINDS] = {
  [PAPER_BEGIN] = { begin, false },   [PAPER_TITLE] = { title, false },     [PAPER_PRICE] = { price, false },
  [PAPER_HEAD] = { head, false },     [PAPER_TEXT] = { text, false },       [PAPER_ITEM] = { item, true },
  [PAPER_CAUTION] = { caution, false }, [PAPER_FACT] = { fact, true },      [PAPER_TABLE] = { table, false },
  [PAPER_HEADS] = { heads, true },    [PAPER_ROW] = { row, true },          [PAPER_TOTAL] = { row, true },
  [PAPER_NOTE] = { note, true },      [PAPER_CHART] = { chart, false },     [PAPER_TICK] = { tick, true },
  [PAPER_BAR] = { bar, true },        [PAPER_STEP] = { step, false },       [PAPER_HOLD] = { hold, false },
  [PAPER_BLANKS] = { blanks, false }, [PAPER_SIGN] = { sign, false },       [PAPER_BREAK] = { new_page, false },
};

void paper_html(const Buf *paper, Buf *out)
{
  Html h = { .out = out };
  Block block = { 0 };
  const char *at = buf_text(paper), *end = at + paper->length;
  while (paper_next(&at, end, &block)) {
    if (!puts_of[block.kind].stays) leave(&h);
    puts_of[block.kind].put(&h, &block);
  }
  leave_step(&h);
  put_between(out, "<footer>", buf_text(&h.foot), "</footer>\n</body>\n</html>\n");
  for (int i = 0; i < COLUMNS_MOST; i++) buf_free(&h.heads[i]);
  buf_free(&h.foot);
  cells_free(&block.line);
}
