/* Runs a script in mujs with a limit on its heap: `mujsHeap KIB FILE`. Prints the most the heap held, in bytes. */
#include <mujs.h>
#include <stdio.h>
#include <stdlib.h>

/* Each block carries its size in front, on the boundary that malloc keeps. What stands in front is not counted. */
#define FRONT 16

static size_t limit, held, most;

static void *allocated(void *udata, void *block, int size) {
  size_t before = block ? *(size_t *)((char *)block - FRONT) : 0;
  (void)udata;
  if (size == 0) {
    if (block) free((char *)block - FRONT);
    held -= before;
    return NULL;
  }
  if (held - before + (size_t)size > limit) return NULL;
  char *fresh = realloc(block ? (char *)block - FRONT : NULL, (size_t)size + FRONT);
  if (!fresh) return NULL;
  *(size_t *)fresh = (size_t)size;
  held = held - before + (size_t)size;
  if (held > most) most = held;
  return fresh + FRONT;
}

static void print(js_State *J) {
  puts(js_tostring(J, 1));
  js_pushundefined(J);
}

int main(int count, char **words) {
  if (count != 3) return 3;
  limit = (size_t)atol(words[1]) * 1024;
  js_State *J = js_newstate(allocated, NULL, 0);
  if (!J) return 2;
  js_newcfunction(J, print, "print", 1);
  js_setglobal(J, "print");
  if (js_dofile(J, words[2])) return 1;
  printf("%lu\n", (unsigned long)most);
  js_freestate(J);
  return 0;
}
