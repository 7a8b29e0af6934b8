/* lib_sort.c - a merge sort of lists that no order function can lead astray. */
#include "lang/sandbox.h"

static void copy_item(lua_State *L, int from, lua_Integer i, int to, lua_Integer j)
{
  lua_rawgeti(L, from, i);
  lua_rawseti(L, to, j);
}

/* Is the item at b before the one at a? Equal items keep their order. */
static bool swapped(lua_State *L, int list, lua_Integer a, lua_Integer b, LibBefore before)
{
  lua_rawgeti(L, list, b);
  lua_rawgeti(L, list, a);
  bool answer = before(L, lua_gettop(L) - 1, lua_gettop(L));
  lua_pop(L, 2);
  return answer;
}

/* Merges from[low..middle] and from[middle+1..high] into `to`. */
static void merge(lua_State *L, int from, int to, lua_Integer low, lua_Integer middle, lua_Integer high,
                  LibBefore before)
{
  lua_Integer left = low, right = middle + 1;
  for (lua_Integer out = low; out <= high; out++) {
    bool take_right = left > middle || (right <= high && swapped(L, from, left, right, before));
    copy_item(L, from, take_right ? right++ : left++, to, out);
  }
}

static lua_Integer smaller(lua_Integer a, lua_Integer b) { return a < b ? a : b; }

/* Runs of `width` become runs twice as wide, from one list into the other. */
static void merge_runs(lua_State *L, int from, int to, lua_Integer count, lua_Integer width, LibBefore before)
{
  for (lua_Integer low = 1; low <= count; low += 2 * width)
    merge(L, from, to, low, smaller(low + width - 1, count), smaller(low + 2 * width - 1, count), before);
}

void lib_sort(lua_State *L, int list, lua_Integer count, LibBefore before)
{
  if (count < 2) return;
  int top = lua_gettop(L), from = list, to = top + 1;
  lua_createtable(L, (int)count, 0);
  for (lua_Integer width = 1; width < count; width *= 2) {
    host_charge(L, 4 * count);
    merge_runs(L, from, to, count, width, before);
    int other = from;
    from = to;
    to = other;
  }
  if (from != list)
    for (lua_Integer i = 1; i <= count; i++) copy_item(L, from, i, list, i);
  lua_settop(L, top);
}
