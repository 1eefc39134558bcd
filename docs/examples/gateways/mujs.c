/* The gateway on mujs 1.3: motescale.unit.global.js, gateway.js, then what else is named.
   cc -O2 mujs.c -lmujs -lm -o gateway && ./gateway motescale.unit.global.js gateway.js < registers.txt
   Each line of the input is a time and a list of registers; each line of the output is a list of events. A line that
   is none is told too, and the gateway goes on. */
#include <mujs.h>
#include <stdio.h>

static const char rejected[] = "[{\"event\":\"rejected\",\"part\":\"line\"}]";

int main(int argc, char **argv) {
  static char line[4096], registers[4096];
  js_State *J = js_newstate(NULL, NULL, JS_STRICT);
  double time;
  int i;
  for (i = 1; i < argc; i += 1)
    if (js_dofile(J, argv[i])) return 2;
  while (fgets(line, sizeof line, stdin) != NULL) {
    if (sscanf(line, "%lf %[^\n]", &time, registers) != 2) {
      puts(rejected);
      continue;
    }
    js_getglobal(J, "gateway");
    js_getproperty(J, -1, "take");
    js_rot2(J); /* the function, then what it is called on */
    js_pushnumber(J, time);
    js_pushstring(J, registers);
    if (js_pcall(J, 2) == 0) puts(js_tostring(J, -1));
    else {
      fprintf(stderr, "%s\n", js_trystring(J, -1, "?"));
      puts(rejected);
    }
    js_pop(J, 1);
  }
  js_freestate(J);
  return 0;
}
