// Validates GS1 EPCIS 2.0 documents against the standard's JSON schema.
// Usage: npm ci && node validate-epcis.js FILE...
// Prints one line for each file; exits 1 if anything fails, a file has no events, a document with a fault planted in it
// passes, or no file is given.
'use strict'

const fs = require('fs')
const { validateEpcisDocument } = require('epcis2.js')

/** What is wrong with a document, or an empty text. */
function fault(document) {
  try {
    const { success, errors } = validateEpcisDocument(document)
    return success ? '' : errors.join('; ')
  } catch (error) {
    return error.message
  }
}

/** Faults that a validator must see; each spoils one event that is right. */
const PLANTED = {
  'an aggregation without an action': (event) => event.type === 'AggregationEvent' && delete event.action,
  'a transformation that makes nothing': (event) =>
    event.type === 'TransformationEvent' &&
    event.outputQuantityList &&
    delete event.transformationID &&
    delete event.outputQuantityList,
  'an event without a time': (event) => delete event.eventTime,
  'a step that is no word of the standard': (event) => (event.bizStep = 'boning'),
  'a unit that is none': (event) => event.childQuantityList && (event.childQuantityList[0].uom = 'kilogram'),
}

/** Checks one file; returns the number of failures. */
function validate(file) {
  const text = fs.readFileSync(file, 'utf8')
  const events = JSON.parse(text).epcisBody.eventList.length
  const wrong = events === 0 ? 'no events' : fault(JSON.parse(text))
  console.log(`${file}: ${events} events${wrong ? ` FAILED: ${wrong}` : ''}`)
  if (wrong) {
    return 1
  }
  let failures = 0
  for (const [name, spoil] of Object.entries(PLANTED)) {
    const spoilt = JSON.parse(text)
    const found = spoilt.epcisBody.eventList.find((event) => spoil(event))
    if (!found || !fault(spoilt)) {
      failures += 1
      console.log(`${file}: FAILED: ${name} ${found ? 'passes' : 'could not be planted'}`)
    }
  }
  return failures
}

const files = process.argv.slice(2)
if (files.length === 0) {
  console.log('no file given')
}
const failures = files.map(validate).reduce((sum, one) => sum + one, 0)
process.exitCode = files.length > 0 && failures === 0 ? 0 : 1
