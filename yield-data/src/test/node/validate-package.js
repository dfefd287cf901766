// Validates Tabular Data Packages: descriptor, every row, and the relations between resources.
// Usage: npm ci && node validate-package.js PLACE...
// A place is a folder with a datapackage.json or a descriptor itself, its name ending in .json.
// Prints one line for each resource; exits 1 if anything fails or no place is given.
'use strict'

const fs = require('fs')
const path = require('path')
const { Package } = require('datapackage')

/** Checks one place; returns the number of failures. */
async function validate(folder) {
  const descriptor = folder.endsWith('.json') ? folder : path.join(folder, 'datapackage.json')
  let dataPackage
  try {
    dataPackage = await Package.load(descriptor, { basePath: path.dirname(descriptor) })
  } catch (error) {
    console.log(`${folder}: FAILED: ${describe(error)}`)
    return 1
  }
  let failures = 0
  if (!dataPackage.valid) {
    failures += 1
    dataPackage.errors.forEach((error) => console.log(`${folder}: FAILED: ${describe(error)}`))
  }
  if (dataPackage.resources.length === 0) {
    failures += 1
    console.log(`${folder}: FAILED: no resources`)
  }
  // reading a missing file ends the process instead of the promise
  const missing = dataPackage.resources.filter((one) => !fs.existsSync(one.source))
  if (missing.length > 0) {
    missing.forEach((one) => console.log(`${folder}: ${one.name}: FAILED: no file ${one.source}`))
    return failures + missing.length
  }
  for (const resource of dataPackage.resources) {
    try {
      const rows = await resource.read({ relations: true })
      const complete = rows.length > 0 && resource.tabular
      if (!complete) {
        failures += 1
      }
      console.log(`${folder}: ${resource.name}: ${rows.length} rows${complete ? '' : ' FAILED: no rows or not tabular'}`)
    } catch (error) {
      failures += 1
      console.log(`${folder}: ${resource.name}: FAILED: ${describe(error)}`)
    }
  }
  return failures
}

function describe(error) {
  const details = error.multiple ? error.errors.map((one) => one.message) : [error.message]
  return details.join('; ')
}

async function main(folders) {
  if (folders.length === 0) {
    console.log('no package folder given')
    return 1
  }
  let failures = 0
  for (const folder of folders) {
    failures += await validate(folder)
  }
  return failures === 0 ? 0 : 1
}

main(process.argv.slice(2)).then(
  (code) => {
    process.exitCode = code
  },
  (error) => {
    console.error(error)
    process.exitCode = 1
  },
)
