//! Draws of the inputs.
//!
//! The generator is `rand_xoshiro`'s: it costs a nanosecond in the browser too, where a stream cipher
//! costs ten. The normal draw stands here and not in a crate because those at hand take exponentials and
//! logarithms by way of `num-traits`, which takes the platform's as soon as anything else in the program
//! asks it to: the draws would no longer be the same everywhere.

use std::{f64::consts::PI, fmt};

use rand_xoshiro::{
    Xoshiro256PlusPlus,
    rand_core::{Rng, SeedableRng},
};

use crate::{confidence::Dof, error::StatsError};

/// What is known of an input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Input {
    /// It is known.
    Exactly(f64),
    /// Normal.
    Normal {
        /// Its mean.
        mean: f64,
        /// Its standard deviation.
        sd: f64,
    },
    /// Student's t, moved and stretched: a mean of few readings.
    StudentT {
        /// Its middle.
        mean: f64,
        /// The standard uncertainty of the mean, s/√n.
        scale: f64,
        /// Its degrees of freedom.
        dof: Dof,
    },
    /// Anywhere between two ends alike.
    Rectangular {
        /// The lower end.
        low: f64,
        /// The upper end.
        high: f64,
    },
}

impl Input {
    /// A value with its standard uncertainty: Student's t where that rests on few readings, else normal.
    ///
    /// Source: JCGM 101:2008 6.4.7 and 6.4.9.
    pub fn of(value: f64, standard: crate::uncertainty::Standard) -> Self {
        let (u, dof) = (standard.u, standard.dof);
        if u <= 0.0 {
            Self::Exactly(value)
        } else if dof.get().is_finite() {
            Self::StudentT {
                mean: value,
                scale: u,
                dof,
            }
        } else {
            Self::Normal { mean: value, sd: u }
        }
    }

    pub(super) fn check(&self) -> Result<(), StatsError> {
        let (middle, width) = match *self {
            Self::Exactly(value) => (value, 0.0),
            Self::Normal { mean, sd } => (mean, sd),
            Self::StudentT { mean, scale, .. } => (mean, scale),
            Self::Rectangular { low, high } => (low, high - low),
        };
        if !middle.is_finite() {
            return Err(StatsError::NotFinite {
                place: 0,
                given: middle,
            });
        }
        if width >= 0.0 && width.is_finite() {
            Ok(())
        } else {
            Err(StatsError::OutOfRange {
                what: "width of an input",
                given: width,
                low: 0.0,
                high: f64::MAX,
            })
        }
    }
}

/// Where draws come from.
#[derive(Clone)]
pub struct Source {
    rng: Xoshiro256PlusPlus,
    ziggurat: Box<Ziggurat>,
}

impl fmt::Debug for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Source")
            .field("rng", &self.rng)
            .finish_non_exhaustive()
    }
}

impl Source {
    /// The same seed gives the same draws.
    pub fn seeded(seed: u64) -> Self {
        Self {
            rng: Xoshiro256PlusPlus::seed_from_u64(seed),
            ziggurat: Box::new(Ziggurat::new()),
        }
    }

    /// A source of its own for one part of the draws; this one goes on 2¹²⁸ draws further.
    #[must_use]
    pub fn branch(&mut self) -> Self {
        let own = self.clone();
        self.rng.jump();
        own
    }

    /// A whole number below `n`, each alike to one part in 2³²/n; `n` is 1 to 2³².
    pub(crate) fn below(&mut self, n: usize) -> usize {
        let bits = self.rng.next_u64() >> 32;
        #[allow(
            clippy::cast_possible_truncation,
            reason = "the product's upper half is below n"
        )]
        let below = ((bits * n as u64) >> 32) as usize;
        below
    }

    /// Draws an input for each place.
    pub fn fill(&mut self, input: &Input, places: &mut [f64]) {
        let Self { rng, ziggurat } = self;
        match *input {
            Input::Exactly(value) => places.fill(value),
            Input::Normal { mean, sd } => {
                for place in places {
                    *place = mean + sd * ziggurat.draw(rng);
                }
            }
            // With so many degrees of freedom the two are alike, and the way to draw t loses its digits.
            Input::StudentT { mean, scale, dof } if dof.get() > NORMAL_FROM => {
                for place in places {
                    *place = mean + scale * ziggurat.draw(rng);
                }
            }
            Input::StudentT { mean, scale, dof } => {
                let dof = dof.get();
                for place in places {
                    *place = mean + scale * student(rng, dof);
                }
            }
            Input::Rectangular { low, high } => {
                for place in places {
                    *place = low + (high - low) * unit(rng);
                }
            }
        }
    }
}

/// The degrees of freedom from which on Student's t is drawn as the normal distribution: they differ by
/// less than 10⁻⁶ there.
const NORMAL_FROM: f64 = 1e6;

/// Between 0 and 1, 1 left out.
fn unit(rng: &mut Xoshiro256PlusPlus) -> f64 {
    to_unit(rng.next_u64())
}

fn to_unit(bits: u64) -> f64 {
    const STEP: f64 = 1.0 / (1_u64 << 53) as f64;
    (bits >> 11) as f64 * STEP
}

/// Student's t.
///
/// # Source
///
/// R. W. Bailey, *Polar generation of random variates with the t-distribution*, Mathematics of
/// Computation 62 (1994).
fn student(rng: &mut Xoshiro256PlusPlus, dof: f64) -> f64 {
    loop {
        let (u, v) = (2.0 * unit(rng) - 1.0, 2.0 * unit(rng) - 1.0);
        let w = u * u + v * v;
        if w > 0.0 && w <= 1.0 {
            return u * (dof * (libm::pow(w, -2.0 / dof) - 1.0) / w).sqrt();
        }
    }
}

/// Strips of equal area under the normal density.
const STRIPS: usize = 256;
/// Where the lowest strip's tail begins, for 256 strips.
const TAIL: f64 = 3.654_152_885_361_009;

/// The standard normal distribution in strips.
///
/// # Source
///
/// G. Marsaglia and W. W. Tsang, *The ziggurat method for generating random variables*, J. Stat. Softw. 5
/// (2000), with the strip and the place in it from different bits, as J. A. Doornik 2005 asks.
#[derive(Clone)]
struct Ziggurat {
    /// The right ends of the strips from the lowest up, and 0; the first is that of a box as large as
    /// the lowest strip with its tail.
    ends: [f64; STRIPS + 1],
    /// exp(−x²/2) at the ends.
    heights: [f64; STRIPS + 1],
}

impl Ziggurat {
    fn new() -> Self {
        let density = |x: f64| libm::exp(-0.5 * x * x);
        let area = TAIL * density(TAIL)
            + (0.5 * PI).sqrt() * libm::erfc(TAIL * std::f64::consts::FRAC_1_SQRT_2);
        let mut ends = [0.0; STRIPS + 1];
        ends[0] = area / density(TAIL);
        ends[1] = TAIL;
        for strip in 1..STRIPS - 1 {
            let x: f64 = ends[strip];
            ends[strip + 1] = (-2.0 * libm::log(area / x + density(x))).sqrt();
        }
        Self {
            ends,
            heights: ends.map(density),
        }
    }

    fn draw(&self, rng: &mut Xoshiro256PlusPlus) -> f64 {
        loop {
            let bits = rng.next_u64();
            #[expect(
                clippy::cast_possible_truncation,
                reason = "the lowest eight bits are meant"
            )]
            let strip = usize::from(bits as u8);
            let sign = (bits & 0x100) << 55;
            let x = to_unit(bits) * self.ends[strip];
            if x < self.ends[strip + 1] {
                return f64::from_bits(x.to_bits() | sign);
            }
            if let Some(x) = self.on_the_edge(strip, x, rng) {
                return f64::from_bits(x.to_bits() | sign);
            }
        }
    }

    /// Beyond what the strip has under the density all along: now and then.
    #[cold]
    fn on_the_edge(&self, strip: usize, x: f64, rng: &mut Xoshiro256PlusPlus) -> Option<f64> {
        if strip == 0 {
            return Some(tail(rng));
        }
        let (low, high) = (self.heights[strip], self.heights[strip + 1]);
        let y = low + (high - low) * unit(rng);
        (y < libm::exp(-0.5 * x * x)).then_some(x)
    }
}

/// Beyond [`TAIL`].
fn tail(rng: &mut Xoshiro256PlusPlus) -> f64 {
    loop {
        // 1 − unit: above 0, so that there is a logarithm.
        let further = -libm::log(1.0 - unit(rng)) / TAIL;
        let room = -libm::log(1.0 - unit(rng));
        if 2.0 * room > further * further {
            return TAIL + further;
        }
    }
}
