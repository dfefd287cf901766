// Checks pages of pictures with axe-core under jsdom: every rule that needs no layout.
// Usage: npm ci && node check-pictures.js PAGE...
// Prints one line for each page and each violation; exits 1 if anything is violated, a page has no picture or none is given.
'use strict'

const fs = require('fs')
const { JSDOM } = require('jsdom')
const axe = require('axe-core')

// jsdom lays nothing out, so axe can't see what covers what; contrast is a test of the library's own
const OPTIONS = {
  rules: { 'color-contrast': { enabled: false }, 'duplicate-id': { enabled: true } },
  resultTypes: ['violations', 'incomplete', 'passes'],
}

/** Checks one page; returns the number of failures. */
async function check(page) {
  const dom = new JSDOM(fs.readFileSync(page, 'utf8'), { runScripts: 'outside-only', pretendToBeVisual: true })
  const pictures = dom.window.document.querySelectorAll('svg[role=img]').length
  dom.window.eval(axe.source)
  const results = await dom.window.axe.run(dom.window.document, OPTIONS)
  dom.window.close()
  const named = results.passes.filter((rule) => rule.id === 'svg-img-alt').flatMap((rule) => rule.nodes).length
  // a rule of which axe can't say whether it holds for an element counts as failed there
  const failures = [...results.violations, ...results.incomplete].flatMap((rule) => rule.nodes.map((node) => ({ rule, node })))
  console.log(`${page}: ${pictures} pictures, ${named} with a text alternative, ${results.passes.length} rules passed, ${failures.length} failed`)
  failures.forEach(({ rule, node }) => console.log(`${page}: FAILED: ${rule.id}: ${rule.help}: ${node.html.slice(0, 200)}`))
  if (pictures === 0 || named !== pictures) {
    console.log(`${page}: FAILED: ${pictures - named} of ${pictures} pictures without a text alternative, and a page has one or more`)
    return failures.length + 1
  }
  return failures.length
}

async function main(pages) {
  let failures = pages.length === 0 ? 1 : 0
  for (const page of pages) {
    failures += await check(page)
  }
  process.exitCode = failures === 0 ? 0 : 1
}

main(process.argv.slice(2))
