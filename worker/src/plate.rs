//! A photo whose areas are read.

use ringland_assess::photo::count::{CountError, Pixels, ShadePlane, count};
use ringland_card::photo::{LeftOut, Point, Region, Shade};
use wasm_bindgen::prelude::wasm_bindgen;

/// Bytes of a colour: red, green, blue and how much it covers.
const COLOUR_BYTES: usize = 4;

/// A photo's pixels, the region that is read, and its shades once they are counted.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Plate {
    width: usize,
    rgba: Vec<u8>,
    region: Region,
    shades: Vec<Option<u8>>,
}

#[wasm_bindgen]
impl Plate {
    /// Of rows of that many pixels.
    #[wasm_bindgen(constructor)]
    pub fn new(width: usize, rgba: Vec<u8>) -> Self {
        Self {
            width,
            rgba,
            region: Region::default(),
            shades: Vec::new(),
        }
    }

    /// Begins another region with its corners, and with those of a rectangle where there are four; x and y in turn.
    pub fn outline(&mut self, corners: &[f64], rectangle: &[f64]) {
        self.region = Region {
            corners: points(corners),
            left_out: Vec::new(),
            rectangle: points(rectangle).try_into().ok(),
        };
    }

    /// Leaves out what lies within corners, or what a brush of some width went over.
    pub fn leave_out(&mut self, way: &[f64], width: Option<f64>) {
        let way = points(way);
        self.region.left_out.push(match width {
            Some(width) => LeftOut::Brush { way, width },
            None => LeftOut::Outline { corners: way },
        });
    }

    /// Counts the shades of the region, by the number of what tells them apart: pixels by shade, then area by shade.
    ///
    /// # Errors
    ///
    /// What is wrong with the region: `pixels`, `region`, `rectangle` or `empty`.
    pub fn count(&mut self, shade: usize) -> Result<Vec<f64>, String> {
        self.shades.clear();
        let shade = Shade::ALL.get(shade).copied().unwrap_or_default();
        let ShadePlane { shades, count } = Pixels::new(self.width, &self.rgba)
            .and_then(|pixels| count(pixels, &self.region, shade))
            .map_err(|why| name(&why).to_owned())?;
        self.shades = shades;
        Ok(count.figures())
    }

    /// A picture of the classes of the region counted last, every so many pixels, in four bytes a pixel: each class in
    /// its colour, what does not count left clear.
    pub fn paint(&self, cuts: &[u8], colours: &[u8], every: usize) -> Vec<u8> {
        let colours: Vec<&[u8]> = colours.chunks_exact(COLOUR_BYTES).collect();
        let clear = [0; COLOUR_BYTES];
        let colour = |shade: Option<u8>| {
            let class = shade.map(|shade| cuts.partition_point(|cut| *cut < shade));
            class
                .and_then(|class| colours.get(class).copied())
                .unwrap_or(&clear)
        };
        let every = every.max(1);
        let rows = self.shades.chunks_exact(self.width.max(1)).step_by(every);
        rows.flat_map(|row| row.iter().step_by(every))
            .flat_map(|shade| colour(*shade))
            .copied()
            .collect()
    }
}

fn points(numbers: &[f64]) -> Vec<Point> {
    let pairs = numbers.chunks_exact(2);
    pairs.map(|pair| (pair[0], pair[1]).into()).collect()
}

fn name(why: &CountError) -> &'static str {
    match why {
        CountError::Pixels { .. } => "pixels",
        CountError::Rectangle(_) => "rectangle",
        CountError::Region(_) => "region",
        CountError::Empty => "empty",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const WHOLE: [f64; 8] = [0.0, 0.0, 3.0, 0.0, 3.0, 2.0, 0.0, 2.0];

    fn plate() -> Plate {
        let greys = [0, 119, 255, 255, 0, 0];
        let rgba = greys.iter().flat_map(|grey| [*grey, *grey, *grey, 255]);
        Plate::new(3, rgba.collect())
    }

    #[test]
    fn shades_are_counted_and_painted_by_class() {
        let mut plate = plate();
        plate.outline(&WHOLE, &[]);
        let counted = plate.count(0).unwrap();
        assert_eq!(counted.len(), 512);
        for (shade, pixels) in [(0, 3.0), (128, 1.0), (255, 2.0)] {
            let found: f64 = counted[shade];
            assert!((found - pixels).abs() < 1e-9, "{found} of shade {shade}");
        }
        assert_eq!(counted[..256], counted[256..]);
        let colours = [1, 1, 1, 9, 2, 2, 2, 9];
        let firsts = |painted: Vec<u8>| -> Vec<u8> {
            painted.chunks_exact(4).map(|pixel| pixel[0]).collect()
        };
        assert_eq!(firsts(plate.paint(&[127], &colours, 1)), [1, 2, 2, 2, 1, 1]);
        assert_eq!(firsts(plate.paint(&[127], &colours, 2)), [1, 2]);
        // What is left out is not painted: two of the upper row, and the first of the lower one.
        plate.leave_out(&[1.0, 0.0, 3.0, 0.0, 3.0, 1.0, 1.0, 1.0], None);
        plate.leave_out(&[0.5, 1.5], Some(1.2));
        let left: f64 = plate.count(0).unwrap()[..256].iter().sum();
        assert!((left - 3.0).abs() < 1e-9);
        assert_eq!(firsts(plate.paint(&[127], &colours, 1)), [1, 0, 0, 0, 1, 1]);
    }

    #[test]
    fn what_is_wrong_is_named_and_nothing_is_painted() {
        let mut plate = plate();
        assert_eq!(plate.count(2), Err("region".to_owned()));
        plate.outline(&[0.6, 0.6, 0.9, 0.6, 0.9, 0.9], &[]);
        assert_eq!(plate.count(2), Err("empty".to_owned()));
        plate.outline(&WHOLE, &[1.0; 8]);
        assert_eq!(plate.count(2), Err("rectangle".to_owned()));
        assert_eq!(plate.paint(&[1], &[0; 8], 1), Vec::<u8>::new());
    }
}
