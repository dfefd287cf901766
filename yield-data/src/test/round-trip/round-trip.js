// Reads a table's folder with the open standard's own library, cells cast to their types, and writes descriptor (with
// every default filled in) and rows again.
// Usage: node round-trip.js FOLDER
'use strict'

const fs = require('fs')
const path = require('path')
const { Package } = require('datapackage')

function cell(value) {
  return value === null || value === undefined ? '' : `"${String(value).replace(/"/g, '""')}"`
}

async function rewrite(folder) {
  const file = path.join(folder, 'datapackage.json')
  const dataPackage = await Package.load(file, { basePath: folder })
  for (const resource of dataPackage.resources) {
    const rows = await resource.read()
    const lines = [resource.headers, ...rows].map((row) => row.map(cell).join(','))
    fs.writeFileSync(resource.source, lines.join('\r\n') + '\r\n')
  }
  fs.writeFileSync(file, JSON.stringify(dataPackage.descriptor))
}

rewrite(process.argv[2]).catch((error) => {
  console.error(error)
  process.exitCode = 1
})
