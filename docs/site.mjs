// How the reference site differs from what TypeDoc makes of itself: a guide is named by its heading, not by its file,
// a list of names has the first sentence of each, and every page leads to the playground, which is copied beside it.
import { copyFileSync, cpSync } from 'node:fs';
import { CommentTag, JSX, ReflectionKind, RendererEvent } from 'typedoc';

/** `# A service in forty lines` names service.md. */
function headingOf({ content }) {
  const text = content.map((part) => part.text).join('');
  return /^# (.+)$/m.exec(text)?.[1];
}

/** Where the first sentence of a text ends, or -1; what stands in brackets ends none. */
function endOfSentence(text) {
  let open = 0;
  for (let i = 0; i < text.length; i += 1) {
    if (text[i] === '(') open += 1;
    if (text[i] === ')') open -= 1;
    if (open <= 0 && /^([.:?](\s|$)|\n\n)/.test(text.slice(i, i + 2))) return i;
  }
  return -1;
}

/** The parts of a comment up to the end of its first sentence. */
function firstSentence(parts) {
  const taken = [];
  for (const part of parts) {
    const end = part.kind === 'text' ? endOfSentence(part.text) : -1;
    if (end >= 0) return [...taken, { ...part, text: `${part.text.slice(0, end)}.` }];
    taken.push(part);
  }
  return taken;
}

export function load(app) {
  // The addresses of the pages are decided by now, and stay short.
  app.renderer.on(RendererEvent.BEGIN, ({ project }) => {
    for (const guide of project.documents ?? []) guide.name = headingOf(guide) ?? guide.name;
    for (const { comment } of project.getReflectionsByKind(ReflectionKind.All)) {
      comment?.blockTags.push(new CommentTag('@summary', firstSentence(comment.summary)));
    }
  });

  app.renderer.hooks.on('sidebar.begin', (page) =>
    JSX.createElement('a', { href: page.relativeURL('playground/index.html') }, 'Playground'),
  );

  app.renderer.on(RendererEvent.END, ({ outputDirectory }) => {
    cpSync('docs/playground', `${outputDirectory}/playground`, { recursive: true });
    copyFileSync('dist/scripts/motescale.global.js', `${outputDirectory}/playground/motescale.global.js`);
  });
}
