//! Statistics on plain numbers. This crate knows no engine: a number is an `f64` in the unit of the
//! samples, and a result is in that unit unless its doc says otherwise.
//!
//! | question | function | source |
//! |---|---|---|
//! | mean, also weighted | [`spread::mean`], [`spread::weighted_mean`] | textbook |
//! | how far do the samples scatter? | [`spread::sample_sd`], [`spread::range`] | textbook |
//! | which value do so many of them not exceed? | [`spread::quantile`] | Hyndman and Fan 1996, type 7 |
//! | a middle and a scatter that a stray does not move | [`robust::median`], [`robust::mad`] | textbook |
//! | which samples stray? | [`robust::modified_z`] | Iglewicz and Hoaglin 1993 |
//! | how steep is the trend, whatever the strays? | [`trend::theil_sen`] | Theil 1950, Sen 1968 |
//! | the same where some samples may not be compared with each other | [`trend::sen_slope`], [`trend::kendall_of_runs`] | Hirsch, Slack and Smith 1982 |
//! | could such an order come about by chance? | [`trend::kendall`] | Kendall 1970 |
//! | quantiles and probabilities of the normal, t and F distributions | [`distribution`] | `statrs` |
//! | a straight line, its band, the next sample, where it reaches a level | [`regression::fit_line`] | JCGM 100 H.3, Fieller 1954 |
//! | a power law | [`regression::fit_power`] | Golub and Pereyra 1973 |
//! | a polynomial | [`regression::fit_polynomial`] | Björck 1996 |
//! | line or power law, and why? | [`regression::compare`] | Hurvich and Tsai 1989 |
//! | one slope for several units, and how far do theirs scatter? | [`regression::compare_units`] | DerSimonian and Laird 1986 |
//! | which ratios are possible of two uncertain numbers? | [`regression::possible_ratios`] | Fieller 1954 |
//! | how uncertain is a result, and by what? | [`uncertainty::combine`] | JCGM 100 (GUM) |
//! | the same by draws, with coverage intervals | [`monte_carlo`] | JCGM 101 |
//! | within its limits, beyond, or not to be said? | [`conformity::conformity`] | JCGM 106, ISO 14253-1 |
//! | how much of the scatter is the gauge's, and how much that of who reads it? | [`gauge_study`] | AIAG, *Measurement Systems Analysis* |
//! | by how much do two groups differ, and is one no worse by more than Δ? | [`compare::welch`] | Welch 1947, Schuirmann 1987 |
//! | the same against all ways to part the samples | [`compare::permutation`] | Phipson and Smyth 2010 |
//! | the same by the order of the samples; the shift; the chance of the larger one | [`compare::rank`] | Hodges and Lehmann 1963, Brunner and Munzel 2000 |
//! | do several groups differ, which pairs, and how much scatters within? | [`compare::anova`] | Holm 1979 |
//! | a share of so many, and the difference of two | [`proportion`] | Wilson 1927, Clopper and Pearson 1934, Newcombe 1998 |
//! | what does a rule of acceptance cost? | [`conformity::global_risks`] | JCGM 106, 9.5 |
//! | where do shades part into classes? | [`threshold::otsu`], [`threshold::multi_otsu`] | Otsu 1979, Liao, Chen and Chung 2001 |
//! | where does a point of a plane lie that is seen in a picture? | [`homography::Homography`] | Hartley and Zisserman 2004, 4.1 |
//! | how large is what was drawn around, and what lies inside? | [`polygon::signed_area`], [`polygon::contains`], [`polygon::crossings`] | textbook, Shimrat 1962 |
//!
//! Nothing panics: samples that a function cannot work with come back as a [`StatsError`]. Powers,
//! exponentials and the error function come from `libm`, so that results are the same bits everywhere.

pub mod compare;
pub mod confidence;
pub mod conformity;
pub mod distribution;
mod error;
pub mod gauge_study;
pub mod homography;
pub mod monte_carlo;
mod point;
pub mod polygon;
pub mod proportion;
pub mod regression;
pub mod robust;
pub mod spread;
pub mod threshold;
pub mod trend;
pub mod uncertainty;

pub use error::StatsError;
pub use point::Point;
