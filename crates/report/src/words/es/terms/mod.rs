//! What the ids of the built-in plans are called.
//!
//! The trade's own Spanish, of the words that workshop manuals of both shores share, one for each
//! thing: *camisa, segmento, bulón, semicojinete, muñón* (of mains and camshaft) and *muñequilla* (of
//! rods), *taqué, balancín, cárter, retén*; *meseta* for a land between grooves; *carbonilla, laca,
//! barniz, lodo* for deposits; *bancada 5* for a main bearing's place.

mod looks;
mod places;
mod scales;
mod sections;

use crate::words::terms::Terms;

pub(super) const TERMS: Terms = Terms {
    sections: sections::SECTIONS,
    parts: sections::PARTS,
    places: places::PLACES,
    columns: places::COLUMNS,
    looks: looks::LOOKS,
    hints: looks::HINTS,
    scales: scales::SCALES,
    methods: scales::METHODS,
    regimes: scales::REGIMES,
    levels: scales::LEVELS,
    states: scales::STATES,
    caps: sections::CAPS,
};
