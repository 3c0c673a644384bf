/* What somebody finds who comes for the first time: lines that a phone has room for. */

export const first = {
  name: 'print-developer.bath',
  text: `# An invented club, an invented formula.
formula "Saltmarsh print developer"
    kind developer
    for paper

    water 750 mL at 45 °C
    pinch of sodium sulfite
    metol 1.5 g
    sodium sulfite (anhydrous) 30 g
    hydroquinone 7 g
    sodium carbonate (anhydrous) 45 g
    potassium bromide 1.5 g
    cool to 24 °C
    water to make 1 L

    use for paper
        dilute 1+3
        temperature 20 °C
        time 90 s
        capacity 40 sheets 8x10 in per L

    keeps 6 months in full bottle
    keeps 8 h in tray
`,
};

export const mistakes = {
  name: 'three-mistakes.bath',
  text: `# Three mistakes that old print makes.
formula "Saltmarsh soft developer"
    kind developer
    for paper

    water 750 mL at 45 °C
    pinch of sodium sulfite
    metol 1,5 g
    sodum sulfite (anhydrous) 22 g
    sodium carbonate (anhydrous) 20 g
    potassium bromide 0.5 g
    water to make 1 L

    use for paper
        dilute 1:2
        temperature 20 °C
        time 2 min
`,
};

export const formula = `formula "New formula"
    kind developer
    for film

    water 750 mL

    water to make 1 L
`;

export const shelf = `shelf "My shelf"
    currency EUR
    balance 0.1 g

    holds sodium sulfite (anhydrous) 1 kg for 9.40 left 620 g
`;
