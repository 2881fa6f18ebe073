//! The shade of a pixel: one byte that it is told apart by.

use ringland_card::photo::Shade;

/// How many steps a byte has.
const STEPS: usize = 256;
/// Steps of the table of f(t).
const LIGHT_STEPS: usize = 4_096;
/// The row sums of [`TO_XYZ`]: white, so that no grey has any colour.
const WHITE: [f64; 3] = [0.9505, 1.0, 1.0890];
/// Linear red, green and blue to X, Y and Z.
const TO_XYZ: [[f64; 3]; 3] = [
    [0.4124, 0.3576, 0.1805],
    [0.2126, 0.7152, 0.0722],
    [0.0193, 0.1192, 0.9505],
];
/// Shades a unit of lightness L*, which runs from 0 to 100.
const A_LIGHTNESS: f64 = 255.0 / 100.0;
/// The shade of what is neither yellow nor blue; one shade a unit of b*, which runs from -108 to 95 in sRGB.
const NEUTRAL: f64 = 128.0;
/// Shades a unit of chroma, which is 134 at most in sRGB.
const A_CHROMA: f64 = 255.0 / 134.0;

/// Works out shades of one kind.
#[derive(Clone, Debug)]
pub struct Shades {
    kind: Shade,
    /// The light of each byte of a colour, 0 to 1.
    linear: [f64; STEPS],
    /// From there to X, Y and Z, each in parts of white.
    to_xyz: [[f64; 3]; 3],
    /// f(t) of light at even steps from 0 to 1, and one beyond: three million roots would be waited for.
    perceived: Vec<f64>,
}

impl Shades {
    /// Of that kind.
    pub fn of(kind: Shade) -> Self {
        let mut linear = [0.0; STEPS];
        for (byte, light) in linear.iter_mut().enumerate() {
            *light = linear_light(byte as f64 / 255.0);
        }
        let steps = 0..=LIGHT_STEPS + 1;
        let perceived = steps.map(|step| perceived(step as f64 / LIGHT_STEPS as f64));
        let to_xyz = std::array::from_fn(|axis| TO_XYZ[axis].map(|part| part / WHITE[axis]));
        Self {
            kind,
            linear,
            to_xyz,
            perceived: perceived.collect(),
        }
    }

    /// The shade of a colour in sRGB, rounded to a whole one.
    ///
    /// # Formula
    ///
    /// ```text
    /// lightness    255·L*/100
    /// yellowness   128 + b*
    /// chroma       255·C*/134,  C* = √(a*² + b*²)
    /// L* = 116·f(Y/Yₙ) − 16   a* = 500·(f(X/Xₙ) − f(Y/Yₙ))   b* = 200·(f(Y/Yₙ) − f(Z/Zₙ))
    /// f(t) = ∛t above (6/29)³, below it (29/6)²·t/3 + 4/29
    /// ```
    ///
    /// # Source
    ///
    /// IEC 61966-2-1 (sRGB to linear light and to X, Y, Z); ISO/CIE 11664-4 (L*, a*, b* and C*), white D65. The scales of
    /// the bytes are the project's own.
    pub fn shade(&self, colour: [u8; 3]) -> u8 {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "no colour of sRGB comes out beyond a byte, which a test goes through"
        )]
        let byte = (self.unrounded(colour) + 0.5) as u8;
        byte
    }

    fn unrounded(&self, colour: [u8; 3]) -> f64 {
        let light = colour.map(|byte| self.linear[usize::from(byte)]);
        let f = |axis: usize| {
            let [r, g, b] = self.to_xyz[axis];
            self.perceived(r * light[0] + g * light[1] + b * light[2])
        };
        match self.kind {
            Shade::Lightness => A_LIGHTNESS * (116.0 * f(1) - 16.0),
            Shade::Yellowness => NEUTRAL + 200.0 * (f(1) - f(2)),
            Shade::Chroma => {
                let (x, y, z) = (f(0), f(1), f(2));
                let (a, b) = (500.0 * (x - y), 200.0 * (y - z));
                A_CHROMA * (a * a + b * b).sqrt()
            }
        }
    }

    /// f(t) by straight lines between the steps of the table, which it misses by less than 0.000 01.
    fn perceived(&self, light: f64) -> f64 {
        let place = light * LIGHT_STEPS as f64;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "light is 0 to 1, or above it by rounding"
        )]
        let step = place as usize;
        match self.perceived.get(step..step + 2) {
            Some([low, high]) => low + (high - low) * (place - step as f64),
            _ => perceived(light),
        }
    }
}

fn linear_light(value: f64) -> f64 {
    if value <= 0.040_45 {
        value / 12.92
    } else {
        libm::pow((value + 0.055) / 1.055, 2.4)
    }
}

fn perceived(light: f64) -> f64 {
    const LEAST: f64 = 216.0 / 24_389.0;
    if light > LEAST {
        libm::cbrt(light)
    } else {
        light * 841.0 / 108.0 + 4.0 / 29.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// scikit-image 0.26.0, `color.rgb2lab`; its white and its matrix have two digits more than the standard's, which is
    /// worth less than a tenth of a unit.
    #[test]
    fn shades_are_those_of_scikit_image() {
        let table = include_str!("../../tests/data/skimage_colours.csv");
        let shades = Shade::ALL.map(Shades::of);
        let mut seen = 0;
        for line in table.lines() {
            let (colour, lab): (Vec<&str>, Vec<&str>) = {
                let all: Vec<&str> = line.split(',').collect();
                (all[..3].to_vec(), all[3..].to_vec())
            };
            let colour: Vec<u8> = colour.iter().map(|byte| byte.parse().unwrap()).collect();
            let colour: [u8; 3] = colour.try_into().unwrap();
            let lab: Vec<f64> = lab.iter().map(|figure| figure.parse().unwrap()).collect();
            let [l, a_star, b_star]: [f64; 3] = lab.try_into().unwrap();
            let [lightness, yellowness, chroma] =
                [0, 1, 2].map(|kind: usize| shades[kind].unrounded(colour));
            let close = |found: f64, expected: f64, unit: f64| {
                assert!(
                    (found - expected).abs() < 0.1 * unit,
                    "{line}: found {found}, expected {expected}"
                );
            };
            close(lightness, l * A_LIGHTNESS, A_LIGHTNESS);
            close(yellowness, NEUTRAL + b_star, 1.0);
            close(chroma, libm::hypot(a_star, b_star) * A_CHROMA, A_CHROMA);
            seen += 1;
        }
        assert_eq!(seen, 220);
    }

    #[test]
    fn the_table_misses_the_formula_by_next_to_nothing() {
        let shades = Shades::of(Shade::Lightness);
        for step in 0..=100_000_u32 {
            let light = f64::from(step) / 100_000.0;
            let missed = (shades.perceived(light) - perceived(light)).abs();
            assert!(missed < 1e-5, "{light}: {missed}");
        }
        assert!((shades.perceived(1.000_000_000_1) - 1.0).abs() < 1e-5);
    }

    /// The extremes of a shade lie on the faces of the cube of colours.
    #[test]
    fn every_colour_has_a_shade_within_a_byte() {
        for kind in Shade::ALL {
            let shades = Shades::of(kind);
            for face in 0..3 {
                for (u, v) in (0..=u8::MAX).flat_map(|u| (0..=u8::MAX).map(move |v| (u, v))) {
                    for end in [0, u8::MAX] {
                        let mut colour = [end; 3];
                        colour[(face + 1) % 3] = u;
                        colour[(face + 2) % 3] = v;
                        let shade = shades.unrounded(colour);
                        assert!((-0.4..255.4).contains(&shade), "{colour:?}: {shade}");
                    }
                }
            }
        }
    }
}
