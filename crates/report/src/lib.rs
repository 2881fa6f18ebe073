//! What people read: words, figures for eyes, the wear ramp, drawn swatches and figures.
//!
//! | what | where |
//! |---|---|
//! | every word of the app, the report and the command | [`words`] |
//! | numbers, units, dates and times; what people type | [`format`](mod@format) |
//! | the colour of a score | [`ramp`] |
//! | comparison swatches, level chips, the unrolled land, interval bar, profile | [`swatch`] |
//! | plots of measured sizes | [`plot`] |
//! | the wear map, of the whole engine and of a section | [`wear_map`] |
//! | the Card: the result on one page, and how each of its figures was made | [`card`] |
//! | the page that is handed over, with the card in it | [`handover`] |
//! | a plan in the making, what is wrong in it and what differs | [`plan`] |
//! | the Gauging page: kinds of size, a box for each part, size sheets | [`gauging`] |
//! | photos: the album, what is marked on one, how one is shown | [`photo`] |
//! | the keys of the Bench | [`keys`] |
//! | the help pages | [`help`] |
//! | text into HTML and SVG; HTML under construction, tables | [`html`], [`markup`] |
//!
//! Everything is a pure function from values to text, the same bytes natively and in the browser.
//! This crate decides nothing: a threshold of the trade in here is a mistake.

pub mod card;
pub mod format;
pub mod gauging;
pub mod handover;
pub mod help;
pub mod html;
pub mod keys;
pub mod markup;
#[cfg(test)]
mod measured_engine;
pub mod photo;
pub mod plan;
pub mod plot;
pub mod ramp;
mod svg;
pub mod swatch;
#[cfg(test)]
mod wcag;
pub mod wear_map;
pub mod words;

/// The style sheet of everything drawn here: the wear ramp, the pictures and the plots. One text, to be served
/// as a file beside the page's own sheets or put into a page that stands alone.
pub fn css() -> String {
    [ramp::css(), swatch::css(), plot::css()].concat()
}
