import { useId } from 'react'
import { type SymptomCode, symptoms } from '#model/record/words.ts'
import { faultsWords } from '../../../app/words/faults.ts'
import { SymptomDrawing } from './symptom-drawing.tsx'
import classes from './symptoms.module.css'

const words = faultsWords.report

interface SymptomPickerProps {
  chosen: readonly SymptomCode[]
  onChange: (chosen: SymptomCode[]) => void
  error?: string
}

/** One or more symptoms, chosen by picture, word and how each is told from the others. */
export function SymptomPicker({ chosen, onChange, error }: SymptomPickerProps) {
  const says = useId()
  const toggle = (code: SymptomCode) =>
    onChange(chosen.includes(code) ? chosen.filter((one) => one !== code) : [...chosen, code])
  return (
    <fieldset className={classes.picker} aria-describedby={error === undefined ? undefined : says}>
      <legend className={classes.legend}>{words.symptoms}</legend>
      <p className={classes.help}>{words.symptomsHelp}</p>
      <div className={classes.choices}>
        {(Object.keys(symptoms) as SymptomCode[]).map((code) => (
          <label key={code} className={classes.choice}>
            <input
              type="checkbox"
              className={classes.tick}
              checked={chosen.includes(code)}
              onChange={() => toggle(code)}
            />
            <SymptomDrawing symptom={code} bare />
            <span>
              <span className={classes.name}>{symptoms[code]}</span>
              <span className={classes.how}>{faultsWords.recognise[code]}</span>
            </span>
          </label>
        ))}
      </div>
      {error !== undefined && (
        <p id={says} className={classes.error} role="alert">
          {error}
        </p>
      )}
    </fieldset>
  )
}
