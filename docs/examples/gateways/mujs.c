/* The gateway on mujs 1.3: motescale.unit.global.js, gateway.js, then what else is named.
   cc -O2 mujs.c -lmujs -lm -o gateway && ./gateway motescale.unit.global.js gateway.js < registers.txt
   Each line of the input is a time and a list of registers; each line of the output is a list of events. */
#include <mujs.h>
#include <stdio.h>

int main(int argc, char **argv) {
  static char line[4096], registers[4096];
  js_State *J = js_newstate(NULL, NULL, JS_STRICT);
  double time;
  int i;
  for (i = 1; i < argc; i += 1)
    if (js_dofile(J, argv[i])) return 2;
  while (fgets(line, sizeof line, stdin) != NULL) {
    if (sscanf(line, "%lf %[^\n]", &time, registers) != 2) continue;
    js_getglobal(J, "gateway");
    js_getproperty(J, -1, "take");
    js_rot2(J); /* the function, then what it is called on */
    js_pushnumber(J, time);
    js_pushstring(J, registers);
    if (js_pcall(J, 2)) fprintf(stderr, "%s\n", js_trystring(J, -1, "?"));
    else puts(js_tostring(J, -1));
    js_pop(J, 1);
  }
  js_freestate(J);
  return 0;
}
