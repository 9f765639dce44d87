/** One line a hazard, shown where the work is done. */
export const cautionWords = {
  wetCement:
    'Wet cement burns the skin before it hurts. Waterproof gloves, boots and knee boards; wash at once with clean water. Wet screed in a boot is an emergency.',
  dust: 'Cement and sand dust: open bags low and slowly, extract at the mixer or wear a fitted mask.',
  silica:
    'Cutting, drilling and grinding free silica dust, which scars the lungs. Water or extraction on the tool and a fitted mask (FFP3 or P3); never dry sweep.',
  pipes: 'Find pipes and cables before drilling or cutting, and isolate them.',
  carbonMonoxide:
    'Combustion heaters make carbon monoxide, which kills without a smell. Ventilate, set an alarm, nobody sleeps there; gas bottles stay outside. An unflued burner also harms fresh screed.',
  electric:
    'Electric heaters and dryers near water: residual-current protection, cables off the wet floor, check the load.',
  resin:
    'Uncured resin can make the skin or the lungs allergic for life. Read the safety sheet, change gloves often, protect the eyes, ventilate; a full bucket heats up.',
  airPressure: 'Air under pressure stores energy: keep to the test procedure and keep people away.',
  loads:
    'Bags, pallets and pump lines: lift in pairs, keep routes clear, release pressure before opening a blocked line.',
  kneeling: 'Kneeling and levelling for hours: knee boards, change over.',
  breakOut:
    'Breaking out: find pipes and cables and isolate them, ask about asbestos in an old building, and do not stack rubble on a floor that was not checked for it.',
  structure:
    'Bayledger does not judge structure. A crack of the base with a step, a floor that sags, rust or hollow units: stop, and ask an engineer.',
  slips: 'Wet sheet is slippery, and sheet hides edges and openings.',
} as const
export type CautionId = keyof typeof cautionWords
