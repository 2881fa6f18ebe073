//! Lengths read off a photo.

use ringland_card::photo::Mark;

/// How well a finger or a pen sets a point on a photo: the standard uncertainty of its place along the line, in pixels
/// of the photo as it is kept.
///
/// The project's own figure, no standard's: a point set on a screen that shows the photo smaller than it is.
pub const POINTING_PX: f64 = 2.0;

/// A length read off a photo, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhotoLength {
    /// The length L.
    pub metres: f64,
    /// Its standard uncertainty u(L).
    pub u: f64,
}

/// The length of a [`Mark::Length`] beside a [`Mark::Scale`] on the same photo; none where they are no such marks.
///
/// L = K·d/s, with d and s the pixels between the ends of the two and K the known length, and
///
/// (u(L)/L)² = 2·(u_p/d)² + 2·(u_p/s)² + (u(K)/K)²,
///
/// with u_p = [`POINTING_PX`] for each of the four ends, and u(K) that of a figure rounded to its last digit as it was
/// typed, one digit/√12. It holds for what lies in the plane of the known length, photographed square on; what the
/// photo's slant adds is not in it.
///
/// # Source
///
/// JCGM 100:2008 5.1.6 (products and quotients), 4.3.7 (rectangular distribution).
pub fn length(scale: &Mark, wanted: &Mark) -> Option<PhotoLength> {
    let (
        Mark::Scale {
            from: a,
            to: b,
            length: known,
            unit,
        },
        Mark::Length { from, to },
    ) = (scale, wanted)
    else {
        return None;
    };
    let (s, d) = (a.distance(*b), from.distance(*to));
    let metres = unit.to_si(known.value()) * d / s;
    let pointing = |pixels: f64| 2.0 * (POINTING_PX / pixels) * (POINTING_PX / pixels);
    let rounding = known.last_digit() / known.value();
    let relative = pointing(d) + pointing(s) + rounding * rounding / 12.0;
    Some(PhotoLength {
        metres,
        u: metres * libm::sqrt(relative),
    })
}

#[cfg(test)]
mod tests {
    use ringland_card::{
        gauging::{Decimal, Unit},
        photo::Point,
    };

    use super::*;

    fn point(x: f64, y: f64) -> Point {
        Point { x, y }
    }

    fn scale(known: &str, unit: Unit) -> Mark {
        Mark::Scale {
            from: point(0.0, 0.0),
            to: point(300.0, 400.0),
            length: Decimal::new(known).unwrap(),
            unit,
        }
    }

    /// By hand: 500 px are 50 mm, so 120 px are 12 mm; (u/L)² = 2·(2/120)² + 2·(2/500)² + (1/50)²/12.
    #[test]
    fn a_length_is_the_known_one_times_the_share_of_pixels() {
        let wanted = Mark::Length {
            from: point(10.0, 10.0),
            to: point(10.0, 130.0),
        };
        let found = length(&scale("50", Unit::Mm), &wanted).unwrap();
        assert!((found.metres - 0.012).abs() < 1e-15);
        let squares: f64 = 2.0 / 3600.0 + 2.0 * 0.004 * 0.004 + 0.02 * 0.02 / 12.0;
        assert!((found.u - 0.012 * squares.sqrt()).abs() < 1e-15);
        // The same rule in inches, and typed more finely, gives the same length known better.
        let finer = length(&scale("1.9685", Unit::In), &wanted).unwrap();
        assert!((finer.metres - 0.012).abs() < 1e-6 && finer.u < found.u);
    }

    #[test]
    fn only_a_length_beside_a_known_one_is_read() {
        let known = scale("50", Unit::Mm);
        assert_eq!(length(&known, &known), None);
    }
}
