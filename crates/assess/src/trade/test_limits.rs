//! Limits that widen with the number of tests that a mean is made of.
//!
//! The category methods give a limit each for one, two and three tests, so that an oil is not failed for
//! one unlucky run and not passed for one lucky one.

use super::rounding::round_half_even;

/// Which side of its limit a result must stay on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// At the limit or below.
    AtMost,
    /// At the limit or above.
    AtLeast,
}

/// A limit that widens with the number of tests that a mean is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestLimits {
    /// The limit of one test.
    pub one: f64,
    /// The limit of the mean of two tests.
    pub two: f64,
    /// The limit of the mean of three tests.
    pub three: f64,
    /// Which side of it passes.
    pub side: Side,
    /// Decimals that the mean is rounded to first.
    pub decimals: usize,
}

/// A mean of tests, judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestVerdict {
    /// The mean as rounded for the decision, in the unit of the limit.
    pub mean: f64,
    /// The limit for so many tests.
    pub limit: f64,
    /// Whether it passes.
    pub pass: bool,
}

/// Tests that no limit is given for.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum TestsError {
    /// No test, or more than three.
    #[error("{given} tests: limits are given for 1 to 3")]
    Number {
        /// Tests given.
        given: usize,
    },
    /// A result that is not a number, or infinite.
    #[error("the result of test {number} is {given}: a finite number is needed")]
    NotFinite {
        /// Which test, from 1.
        number: usize,
        /// Its result.
        given: f64,
    },
}

impl TestLimits {
    /// Judges the results of one, two or three tests.
    ///
    /// # Formula
    ///
    /// ```text
    /// x̄ = Σ xᵢ / n, rounded        pass: x̄ ≤ Lₙ  (or ≥ Lₙ),  n = 1, 2, 3
    /// ```
    ///
    /// # Errors
    ///
    /// [`TestsError`] for no test or more than three, and for a result that is not finite.
    ///
    /// # Source
    ///
    /// The tables of ASTM D4485, which give a limit each for one, two and three tests; that the mean is
    /// what they limit, and its rounding after ASTM E29: from memory.
    pub fn judge(&self, results: &[f64]) -> Result<TestVerdict, TestsError> {
        let limit = match results.len() {
            1 => self.one,
            2 => self.two,
            3 => self.three,
            given => return Err(TestsError::Number { given }),
        };
        if let Some((number, &given)) = (1..).zip(results).find(|(_, x)| !x.is_finite()) {
            return Err(TestsError::NotFinite { number, given });
        }
        let mean = results
            .iter()
            .map(|x| x / results.len() as f64)
            .sum::<f64>();
        let mean = round_half_even(mean, self.decimals);
        let pass = match self.side {
            Side::AtMost => mean <= limit,
            Side::AtLeast => mean >= limit,
        };
        Ok(TestVerdict { mean, limit, pass })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::trade::rounding::decimals_of;

    fn at_most(one: f64, two: f64, three: f64) -> TestLimits {
        let decimals = decimals_of(one)
            .max(decimals_of(two))
            .max(decimals_of(three));
        TestLimits {
            one,
            two,
            three,
            side: Side::AtMost,
            decimals,
        }
    }

    #[track_caller]
    fn tests(limits: &TestLimits, results: &[f64], pass: bool) {
        let verdict = limits.judge(results).unwrap();
        assert_eq!(verdict.pass, pass, "{verdict:?}");
    }

    /// ASTM D6750 1N: weighted demerits, top groove fill %, top land heavy carbon %, as a page that prints
    /// the CG-4 table of ASTM D4485 gives them (read).
    #[test]
    fn one_n_limits() {
        let weighted = at_most(286.2, 311.7, 323.0);
        tests(&weighted, &[286.2], true);
        tests(&weighted, &[286.3], false);
        tests(&weighted, &[286.249], true); // rounds to the limit
        tests(&weighted, &[286.25], true); // half to even
        tests(&weighted, &[330.0, 293.4], true); // 311.7
        tests(&weighted, &[330.0, 293.6], false); // 311.8
        tests(&weighted, &[323.0, 323.0, 323.0], true);
        tests(&weighted, &[323.0, 323.0, 323.3], false); // 323.1
        let fill = at_most(20.0, 23.0, 25.0);
        tests(&fill, &[20.0], true);
        tests(&fill, &[21.0], false);
        tests(&fill, &[21.0, 25.0], true);
        let carbon = at_most(3.0, 4.0, 5.0);
        tests(&carbon, &[3.0], true);
        tests(&carbon, &[4.0], false);
        tests(&carbon, &[4.0, 4.0], true);
        tests(&carbon, &[5.0, 5.0, 5.0], true);
    }

    /// ASTM D6681 1P: weighted demerits, top groove carbon %, top land carbon %, as a page that prints the
    /// CH-4 table of ASTM D4485 gives them (read).
    #[test]
    fn one_p_limits() {
        let weighted = at_most(350.0, 378.0, 390.0);
        tests(&weighted, &[350.0], true);
        tests(&weighted, &[351.0], false);
        tests(&weighted, &[351.0, 404.0], true); // 377.5, half to even is 378
        tests(&weighted, &[352.0, 405.0], true); // 378.5, half to even is 378
        tests(&weighted, &[353.0, 405.0], false); // 379
        let groove = at_most(36.0, 39.0, 41.0);
        tests(&groove, &[36.4], true);
        tests(&groove, &[37.0], false);
        let land = at_most(40.0, 46.0, 49.0);
        tests(&land, &[49.0, 49.0, 49.0], true);
        tests(&land, &[49.0, 49.0, 51.0], false);
    }

    /// Sludge merits of the high-soot test, larger is better: 8.7, 8.6, 8.5 for one, two, three tests, as a
    /// page that prints the CH-4 table of ASTM D4485 gives them (read).
    #[test]
    fn limits_that_must_be_reached() {
        let sludge = TestLimits {
            side: Side::AtLeast,
            ..at_most(8.7, 8.6, 8.5)
        };
        tests(&sludge, &[8.7], true);
        tests(&sludge, &[8.6], false);
        tests(&sludge, &[8.5, 8.7], true);
        tests(&sludge, &[8.5, 8.5, 8.5], true);
        tests(&sludge, &[8.4, 8.4, 8.4], false);
    }

    #[test]
    fn tests_without_a_limit_are_refused() {
        let limits = at_most(3.0, 4.0, 5.0);
        assert_eq!(
            limits.judge(&[]).unwrap_err().to_string(),
            "0 tests: limits are given for 1 to 3"
        );
        assert_eq!(
            limits.judge(&[1.0; 4]),
            Err(TestsError::Number { given: 4 })
        );
        assert_eq!(
            limits.judge(&[1.0, f64::INFINITY]).unwrap_err().to_string(),
            "the result of test 2 is inf: a finite number is needed"
        );
    }

    /// A pattern seen in the published limits, Lₙ = L₁ + c·(1 − 1/√n) with c fixed by L₂, foretells the
    /// third within what its rounding hides. It guards the tables above against slips of the pen; nothing
    /// is worked out with it. Limits of ASTM D6750 1N, D6681 1P and D6750 1K weighted demerits, D6483 liner
    /// wear µm and D5119 bearing loss mg, as pages that print the tables of ASTM D4485 give them (read).
    #[test]
    fn published_limits_follow_one_pattern() {
        for (one, two, three, within) in [
            (286.2, 311.7, 323.0, 0.05),
            (350.0, 378.0, 390.0, 0.5),
            (332.0, 347.0, 353.0, 0.7),
            (25.4, 26.6, 27.1, 0.05),
            (43.7, 48.1, 50.0, 0.06),
        ] {
            let c = (two - one) / (1.0 - 1.0 / 2.0_f64.sqrt());
            let foretold = one + c * (1.0 - 1.0 / 3.0_f64.sqrt());
            assert!(
                (foretold - three).abs() < within,
                "got {foretold}, published {three}"
            );
        }
    }

    proptest! {
        #[test]
        fn nothing_panics(limits in any::<[f64; 3]>(), results in prop::collection::vec(any::<f64>(), 0..5)) {
            let _ = at_most(limits[0], limits[1], limits[2]).judge(&results);
        }
    }
}
