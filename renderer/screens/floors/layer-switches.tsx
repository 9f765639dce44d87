import { Checkbox } from '@mantine/core'
import { floorsWords as words } from '../../app/words/floors.ts'
import classes from './floors.module.css'
import { type LayerName, type Layers, layerNames } from './plan/layers.tsx'

interface LayerSwitchesProps {
  layers: Layers
  onChange: (layers: Layers) => void
}

/** What the plan shows besides the bays. */
export function LayerSwitches({ layers, onChange }: LayerSwitchesProps) {
  return (
    <fieldset className={classes.layers}>
      <legend className={classes.hidden}>{words.layers.label}</legend>
      {layerNames.map((name: LayerName) => (
        <Checkbox
          key={name}
          size="md"
          label={words.layers[name]}
          checked={layers[name]}
          onChange={(event) => onChange({ ...layers, [name]: event.currentTarget.checked })}
        />
      ))}
    </fieldset>
  )
}
