/** A table as somebody gathers it, of makers that do not exist: under headings of its own, in an order of its own, with what goes wrong in such tables. */
export const forty: string = [
  'Price;Seen on;Headline;What the seller says;Link',
  // Row 2 and 3: names nobody ever gave; row 4: one that could be, and is not listed; row 5 and 6: blades told rightly, and wrongly.
  '120;fair;"Merrowby Petrel 14";"good one";https://quay.example/2',
  '80;fair;"Merrowby Petrel 13";"not a cartridge it says";https://quay.example/3',
  '95;fair;"Tarnwick Rowan V-12";"as taken off";',
  '60;shop;"Petrel 13 Cartridge";"turbine wheel with 10 blades";https://quay.example/5',
  '210;shop;"Merrowby Petrel 13 Cartridge";"turbine wheel with 11 blades, serial no 40117, spins well";https://quay.example/6',
  // Row 7: offered with water ports on a core without; row 8: said two ways.
  '300;shop;"Merrowby Tern 4";"bearing housing: water ports yes";',
  '310;shop;"Merrowby Petrel 11 Cartridge";"turbine wheel with 10 blades. turbine wheel with 9 blades";',
  // Row 9 to 12: a price alone, no words at all, two makers, a list of what it may fit.
  '450;;;;',
  ';fair;;;https://quay.example/10',
  '75;fair;"Merrowby Petrel 13 Cartridge, Tarnwick Rowan V-21";"one or the other";',
  '70;fair;"fits Petrel 6 Cartridge, Petrel 8 Cartridge, Petrel 11 Cartridge, Petrel 13 Cartridge, Petrel 17 Cartridge, Petrel 21 Cartridge";;',
  // Row 13 to 16: quoted lines, a decimal comma, an implausible figure, nothing of a turbocharger.
  '"1.250,00";fair;"Merrowby Petrel 17 Cartridge";"two lines\nof words; and a ""quote""";https://quay.example/13',
  '20;fair;"Merrowby Petrel 8 Cartridge";"compressor wheel exducer diameter 5720 mm";',
  '5;fair;"Box of bolts";"all sizes";',
  '400;fair;"Veldmark Gneiss-JO";"bearing housing with casting mark ""MERROWBY""";',
  ...Array.from({ length: 25 }, (_, n) => `${100 + n};stall ${n + 1};"Merrowby Skua 13 Cartridge";"number ${n + 1} of many";`),
].join('\r\n');
