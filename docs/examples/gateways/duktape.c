/* The gateway on Duktape 2.7, in a heap of so many KiB: motescale.unit.global.js, gateway.js, then what else is named.
   cc -O2 duktape.c -lduktape -lm -o gateway && ./gateway 1024 motescale.unit.global.js gateway.js < registers.txt
   Each line of the input is a time and a list of registers; each line of the output is a list of events. A line that
   is none is told too, and the gateway goes on. */
#include <duktape.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char rejected[] = "[{\"event\":\"rejected\",\"part\":\"line\"}]";
static size_t used, peak, limit;
static int refused;

/* An allocator that keeps count, and refuses what is above the limit: Duktape then collects and asks again. */
static void *take(void *udata, void *old, duk_size_t size) {
  size_t before = old == NULL ? 0 : ((size_t *)old)[-2];
  size_t *made;
  (void)udata;
  if (size == 0) {
    if (old != NULL) free((size_t *)old - 2);
    used -= before;
    return NULL;
  }
  if (used - before + size > limit) {
    refused = 1;
    return NULL;
  }
  made = realloc(old == NULL ? NULL : (size_t *)old - 2, size + 2 * sizeof(size_t));
  if (made == NULL) return NULL;
  made[0] = size;
  used += size - before;
  if (used > peak) peak = used;
  return made + 2;
}
static void *make(void *udata, duk_size_t size) { return take(udata, NULL, size); }
static void give(void *udata, void *old) { take(udata, old, 0); }
static void fatal(void *udata, const char *message) { (void)udata; fprintf(stderr, "%s\n", message); exit(2); }

/* What was thrown. Duktape says no more where the heap is too small even for the error. */
static void report(duk_context *ctx, const char *name) {
  const char *why = duk_safe_to_string(ctx, -1);
  int full = refused && (strstr(why, "alloc failed") != NULL || strncmp(why, "DoubleError", 11) == 0);
  if (full) fprintf(stderr, "%s: out of memory, in %lu KiB (%s)\n", name, (unsigned long)(limit / 1024), why);
  else fprintf(stderr, "%s: %s\n", name, why);
}

static void unread(const char *name) { perror(name); exit(2); }

static void run_file(duk_context *ctx, const char *name) {
  FILE *file = fopen(name, "rb");
  long length;
  char *text;
  if (file == NULL) unread(name);
  fseek(file, 0, SEEK_END);
  length = ftell(file);
  rewind(file);
  text = malloc((size_t)length);
  if (text == NULL || fread(text, 1, (size_t)length, file) != (size_t)length) unread(name);
  fclose(file);
  /* from outside the heap: the text of the script takes none of it */
  if (duk_peval_lstring(ctx, text, (duk_size_t)length) != 0) {
    report(ctx, name);
    exit(2);
  }
  duk_pop(ctx);
  free(text);
}

int main(int argc, char **argv) {
  static char line[4096], registers[4096];
  duk_context *ctx;
  double time;
  int i;
  if (argc < 3) return 1;
  limit = (size_t)atol(argv[1]) * 1024;
  ctx = duk_create_heap(make, take, give, NULL, fatal);
  if (ctx == NULL) fatal(NULL, "out of memory: no engine in so few KiB");
  for (i = 2; i < argc; i += 1) run_file(ctx, argv[i]);
  while (fgets(line, sizeof line, stdin) != NULL) {
    if (sscanf(line, "%lf %[^\n]", &time, registers) != 2) {
      puts(rejected);
      continue;
    }
    duk_get_global_string(ctx, "gateway");
    duk_push_string(ctx, "take");
    duk_push_number(ctx, time);
    duk_push_string(ctx, registers);
    if (duk_pcall_prop(ctx, -4, 2) == 0) puts(duk_get_string(ctx, -1));
    else {
      report(ctx, "gateway.take");
      puts(rejected);
    }
    duk_pop_2(ctx);
  }
  fprintf(stderr, "peak %lu KiB\n", (unsigned long)((peak + 1023) / 1024));
  duk_destroy_heap(ctx);
  return 0;
}
