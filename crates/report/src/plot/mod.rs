//! Plots of measured sizes, as SVG.
//!
//! | what | where |
//! |---|---|
//! | the profile of a bore or a journal, height by height | [`profile()`] |
//! | sizes of one kind along the engine | [`along()`] |
//! | wear against distance, with a forecast's curve and band | [`wear_over_run`], [`curve`] |
//!
//! As with every picture here, colours come by class, from [`css`], in the page's tokens; marks, dashes and
//! words tell things apart, so that a plot reads in grey. Each is an image that says the same in a sentence.

mod along;
mod frame;
mod profile;
mod run;
#[cfg(test)]
mod tests;
mod ticks;

pub use along::{Along, along};
pub use profile::profile;
pub use run::{CurvePoint, WearOverRun, curve, wear_over_run};

/// The style rules of every plot. The tokens are the app's; a page without them shows the plain ones.
const CSS: &str = "\
.picture--plot{display:block;max-width:max(100%,25rem);height:auto}
.plot__edge{fill:none;stroke:var(--line-strong,#7f8b97);stroke-width:1}
.plot__grid{fill:none;stroke:var(--line,#cbd3da);stroke-width:1}
.plot__figure{fill:var(--mute,currentColor);font-size:13px;font-variant-numeric:tabular-nums}
.plot__name{fill:var(--ink,currentColor);font-size:13px}
.plot__new{fill:var(--bar-soft,#d5dce3)}
.plot__band{fill:var(--bar-soft,#d5dce3);opacity:.7}
.plot__limit{fill:none;stroke:var(--ink,currentColor);stroke-width:2;stroke-dasharray:7 4}
.plot__was{fill:none;stroke:var(--bar,#8fa3b5);stroke-width:4}
.plot__line{fill:none;stroke:var(--ink,currentColor);stroke-width:1.75;stroke-linejoin:round}
.plot__line--dashed{stroke-dasharray:3 3}
.plot__u{fill:none;stroke:var(--ink,currentColor);stroke-width:1.25}
.plot__mark{fill:var(--ink,currentColor);stroke:var(--ink,currentColor);stroke-width:1.5}
.plot__mark--open{fill:var(--sheet,#ffffff)}
";

/// The style rules of every plot here.
pub fn css() -> String {
    CSS.to_owned()
}
