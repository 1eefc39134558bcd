/*
 * Runs scripts in Duktape, one after the other, with a limit on its heap: `duktapeHeap KIB FILE...`. Prints the most the
 * heap held, in bytes.
 */
#include <duktape.h>
#include <stdio.h>
#include <stdlib.h>

/* Each block carries its size in front, on the boundary that malloc keeps. What stands in front is not counted. */
#define FRONT 16

static size_t limit, held, most;

static void *resized(void *block, size_t size) {
  size_t before = block ? *(size_t *)((char *)block - FRONT) : 0;
  if (held - before + size > limit) return NULL;
  char *fresh = realloc(block ? (char *)block - FRONT : NULL, size + FRONT);
  if (!fresh) return NULL;
  *(size_t *)fresh = size;
  held = held - before + size;
  if (held > most) most = held;
  return fresh + FRONT;
}

static void freed(void *udata, void *block) {
  (void)udata;
  if (!block) return;
  held -= *(size_t *)((char *)block - FRONT);
  free((char *)block - FRONT);
}

static void *allocated(void *udata, size_t size) {
  (void)udata;
  return size ? resized(NULL, size) : NULL;
}

static void *reallocated(void *udata, void *block, size_t size) {
  if (size) return resized(block, size);
  freed(udata, block);
  return NULL;
}

static void failed(void *udata, const char *message) {
  (void)udata;
  fprintf(stderr, "%s\n", message ? message : "out of memory");
  exit(2);
}

static duk_ret_t print(duk_context *context) {
  puts(duk_safe_to_string(context, 0));
  return 0;
}

/* Evaluates a file by itself: once it has run, what loaded it can be collected. */
static void run(duk_context *context, const char *name) {
  FILE *file = fopen(name, "rb");
  if (!file) exit(3);
  fseek(file, 0, SEEK_END);
  long length = ftell(file);
  rewind(file);
  char *text = malloc(length);
  if (!text || fread(text, 1, length, file) != (size_t)length) exit(3);
  fclose(file);
  if (duk_peval_lstring(context, text, length) != 0) {
    fprintf(stderr, "%s\n", duk_safe_to_string(context, -1));
    exit(1);
  }
  duk_pop(context);
  free(text);
}

int main(int count, char **words) {
  if (count < 3) return 3;
  limit = (size_t)atol(words[1]) * 1024;
  duk_context *context = duk_create_heap(allocated, reallocated, freed, NULL, failed);
  if (!context) return 2;
  duk_push_c_function(context, print, 1);
  duk_put_global_string(context, "print");
  for (int i = 2; i < count; i += 1) run(context, words[i]);
  duk_gc(context, 0);
  printf("most %zu, held at the end %zu\n", most, held);
  return 0;
}
