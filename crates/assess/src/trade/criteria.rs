//! The merit sum of anchors, limits and best credits.
//!
//! A general calculator on the user's own criteria, after the diesel category methods (ASTM D7468 and
//! its kin): each criterion earns merits, one past its limit fails the whole, and the sum must reach a
//! mark. Results are rounded half to even in decimal, as ASTM E29 says, before anything is decided.
//!
//! Units: a criterion's anchor, limit and best credit are in the unit of its result; merits have none.

use ringland_card::plan::{self, Plan};

use super::{
    TradeFigures,
    rounding::{decimals_of, round_half_even},
};

/// The sum of merits that passes where nothing else is asked for. Source: ASTM D7468.
pub const REQUIRED: f64 = 1000.0;

/// A criterion: what earns how many merits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Criterion {
    /// w: merits earned at the anchor, 0 or more; a criterion of weight 0 is a pure limit.
    pub weight: f64,
    /// a: the result that earns just the weight.
    pub anchor: f64,
    /// f: the result past which the criterion fails.
    pub limit: f64,
    /// b: the result that earns twice the weight.
    pub best: f64,
}

/// A criterion that contradicts itself.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum CriterionError {
    /// A figure that is not finite, or a weight below 0.
    #[error(
        "criterion {number}: the {what} is {given}: allowed is a finite number, for a weight 0 or more"
    )]
    Figure {
        /// Which criterion, from 1.
        number: usize,
        /// Which figure.
        what: &'static str,
        /// What it holds.
        given: f64,
    },
    /// An anchor that does not lie between limit and best credit.
    #[error(
        "criterion {number}: the anchor {anchor} must lie between the limit {limit} and the best credit {best}"
    )]
    Order {
        /// Which criterion, from 1.
        number: usize,
        /// Its anchor.
        anchor: f64,
        /// Its limit.
        limit: f64,
        /// Its best credit.
        best: f64,
    },
}

impl Criterion {
    /// The merits that a result earns; none past the limit, where the criterion fails.
    ///
    /// # Formula
    ///
    /// ```text
    /// smaller is better (b < a < f)        larger is better (f < a < b)
    /// x > f       fails                    x < f       fails
    /// a ≤ x ≤ f   w·(f − x)/(f − a)        f ≤ x ≤ a   w·(x − f)/(a − f)
    /// b ≤ x < a   w·(1 + (a − x)/(a − b))  a < x ≤ b   w·(1 + (x − a)/(b − a))
    /// x < b       2w                       x > b       2w
    /// ```
    ///
    /// So 0 at the limit, w at the anchor, 2w at the best credit and beyond. Whether a method gives
    /// negative merits past its limit was not found: here the criterion fails and earns nothing.
    ///
    /// A result that is not a number is past the limit. Of a criterion that [`Criterion::check`] refuses
    /// the merits mean nothing.
    ///
    /// # Source
    ///
    /// The columns of the table of ASTM D7468 and its mark of 1000 (read); the formula from memory.
    pub fn merits(&self, result: f64) -> Option<f64> {
        let Self {
            weight,
            anchor,
            limit,
            best,
        } = *self;
        // Turned so that smaller is better.
        let turn = if best < limit { 1.0 } else { -1.0 };
        let (x, a, f, b) = (turn * result, turn * anchor, turn * limit, turn * best);
        if x.is_nan() || x > f {
            None
        } else if weight <= 0.0 {
            Some(0.0)
        } else if x >= a {
            Some(weight * ((f - x) / (f - a)))
        } else if x >= b {
            Some(weight * (1.0 + (a - x) / (a - b)))
        } else {
            Some(2.0 * weight)
        }
    }

    /// Refuses a criterion that contradicts itself; `number` counts from 1 and names it in the message.
    ///
    /// The anchor must lie between the limit and the best credit, and for a pure limit may lie on either.
    ///
    /// # Errors
    ///
    /// [`CriterionError`] with the figures.
    pub fn check(&self, number: usize) -> Result<(), CriterionError> {
        let Self {
            weight,
            anchor,
            limit,
            best,
        } = *self;
        for (what, given, least) in [
            ("weight", weight, 0.0),
            ("anchor", anchor, f64::MIN),
            ("limit", limit, f64::MIN),
            ("best credit", best, f64::MIN),
        ] {
            if !(least..=f64::MAX).contains(&given) {
                return Err(CriterionError::Figure {
                    number,
                    what,
                    given,
                });
            }
        }
        let between = (best < anchor && anchor < limit) || (limit < anchor && anchor < best);
        let on = (best < limit && best <= anchor && anchor <= limit)
            || (limit < best && limit <= anchor && anchor <= best);
        if between || (weight <= 0.0 && on) {
            Ok(())
        } else {
            Err(CriterionError::Order {
                number,
                anchor,
                limit,
                best,
            })
        }
    }
}

impl From<&plan::Criterion> for Criterion {
    fn from(criterion: &plan::Criterion) -> Self {
        Self {
            weight: criterion.weight,
            anchor: criterion.anchor,
            limit: criterion.limit,
            best: criterion.best,
        }
    }
}

/// A criterion with the result that it judges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Case {
    /// The criterion.
    pub criterion: Criterion,
    /// The result; none where there is none yet.
    pub result: Option<f64>,
    /// Decimals that the result is rounded to first.
    pub decimals: usize,
}

/// What became of one criterion.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Outcome {
    /// It earned these merits.
    Earned(f64),
    /// The result is past the limit.
    PastLimit,
    /// There is no result.
    Open,
}

/// One criterion, judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The result as rounded for the decision.
    pub rounded: Option<f64>,
    /// What became of it.
    pub outcome: Outcome,
}

/// What became of the whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// The sum reaches the mark and no result is past its limit.
    Pass,
    /// A result is past its limit, whatever the sum.
    PastLimit,
    /// The sum does not reach the mark, not even if every open criterion earned the most.
    TooFewMerits,
    /// It hangs on criteria that have no result.
    Open,
}

/// A merit sum.
#[derive(Clone, Debug, PartialEq)]
pub struct MeritSum {
    /// The criteria, in the order given.
    pub criteria: Vec<Judged>,
    /// The sum of the merits earned.
    pub sum: f64,
    /// What became of the whole.
    pub verdict: Verdict,
}

/// Judges results by their criteria.
///
/// # Formula
///
/// ```text
/// M = Σⱼ mⱼ(xⱼ rounded)        pass: M ≥ required, and no xⱼ past its limit
/// ```
///
/// Each result is rounded before it is looked at, and the sum to the digits of the mark before it is held
/// against the mark. A result that rounds to its limit is not past it.
///
/// # Errors
///
/// [`CriterionError`] for a criterion that contradicts itself.
///
/// # Source
///
/// ASTM D7468 for the mark of 1000; the rounding method of ASTM E29 (from memory).
pub fn judge(cases: &[Case], required: f64) -> Result<MeritSum, CriterionError> {
    let (mut sum, mut open) = (0.0, 0.0);
    let (mut any_open, mut past) = (false, false);
    let mut criteria = Vec::with_capacity(cases.len());
    for (number, case) in (1..).zip(cases) {
        case.criterion.check(number)?;
        let rounded = case
            .result
            .map(|result| round_half_even(result, case.decimals));
        let outcome = match rounded.map(|result| case.criterion.merits(result)) {
            Some(Some(merits)) => Outcome::Earned(merits),
            Some(None) => Outcome::PastLimit,
            None => Outcome::Open,
        };
        match outcome {
            Outcome::Earned(merits) => sum += merits,
            Outcome::PastLimit => past = true,
            Outcome::Open => {
                any_open = true;
                open += 2.0 * case.criterion.weight;
            }
        }
        criteria.push(Judged { rounded, outcome });
    }
    let reaches = |sum| round_half_even(sum, decimals_of(required)) >= required;
    let verdict = if past {
        Verdict::PastLimit
    } else if !reaches(sum + open) {
        Verdict::TooFewMerits
    } else if any_open {
        Verdict::Open
    } else {
        Verdict::Pass
    };
    Ok(MeritSum {
        criteria,
        sum,
        verdict,
    })
}

/// Judges a card's trade figures by the criteria of its plan; none where the plan has none.
///
/// Each figure is rounded to the digits of its limit.
///
/// # Errors
///
/// [`CriterionError`] for a criterion that contradicts itself; those of a checked plan do not.
pub fn judge_figures(
    plan: &Plan,
    figures: &TradeFigures,
    required: f64,
) -> Result<Option<MeritSum>, CriterionError> {
    if plan.criteria.is_empty() {
        return Ok(None);
    }
    let cases: Vec<Case> = plan
        .criteria
        .iter()
        .map(|criterion| Case {
            criterion: criterion.into(),
            result: figures.value(criterion.figure),
            decimals: decimals_of(criterion.limit),
        })
        .collect();
    judge(&cases, required).map(Some)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn criterion(weight: f64, limit: f64, anchor: f64, best: f64) -> Criterion {
        Criterion {
            weight,
            anchor,
            limit,
            best,
        }
    }

    fn judge_all(table: &[Criterion], results: &[f64], decimals: usize) -> MeritSum {
        let cases: Vec<Case> = table
            .iter()
            .zip(results)
            .map(|(criterion, result)| Case {
                criterion: *criterion,
                result: Some(*result),
                decimals,
            })
            .collect();
        judge(&cases, REQUIRED).unwrap()
    }

    fn merits_of(sum: &MeritSum) -> Vec<f64> {
        sum.criteria
            .iter()
            .map(|judged| match judged.outcome {
                Outcome::Earned(merits) => merits,
                Outcome::PastLimit | Outcome::Open => f64::NAN,
            })
            .collect()
    }

    /// ASTM D7468, pass/fail table (read): crosshead mass loss mg, oil filter pressure drop kPa, injector
    /// adjusting screw mg, sludge merits (where larger is better, so that 8.7 is the failing side).
    fn valve_train() -> [Criterion; 4] {
        [
            criterion(350.0, 7.1, 5.7, 4.3),
            criterion(150.0, 19.0, 13.0, 7.0),
            criterion(350.0, 49.0, 27.0, 16.0),
            criterion(150.0, 8.7, 9.0, 9.3),
        ]
    }

    /// ASTM D7422 (from memory; the weights sum to 1000): liner wear µm, top ring loss mg, lead rise at the
    /// end mg/kg, lead rise from 250 to 300 h mg/kg, oil consumption g/h.
    fn ring_and_liner() -> [Criterion; 5] {
        [
            criterion(250.0, 24.0, 20.0, 12.0),
            criterion(200.0, 105.0, 70.0, 35.0),
            criterion(200.0, 35.0, 25.0, 10.0),
            criterion(200.0, 15.0, 10.0, 0.0),
            criterion(150.0, 85.0, 65.0, 50.0),
        ]
    }

    #[track_caller]
    fn check(sum: &MeritSum, merits: &[f64], total: f64, verdict: Verdict) {
        for (got, want) in merits_of(sum).iter().zip(merits) {
            assert!(
                (got - want).abs() < 1e-9 || want.is_nan(),
                "got {got}, want {want}"
            );
        }
        assert_eq!(sum.criteria.len(), merits.len());
        assert!(
            (sum.sum - total).abs() < 1e-9,
            "got {}, want {total}",
            sum.sum
        );
        assert_eq!(sum.verdict, verdict);
    }

    /// The table is read, the formula from memory, the arithmetic by hand.
    #[test]
    fn valve_train_table() {
        let table = valve_train();
        check(
            &judge_all(&table, &[5.7, 13.0, 27.0, 9.0], 1),
            &[350.0, 150.0, 350.0, 150.0],
            1000.0,
            Verdict::Pass,
        );
        check(
            &judge_all(&table, &[7.1, 19.0, 49.0, 8.7], 1),
            &[0.0; 4],
            0.0,
            Verdict::TooFewMerits,
        );
        let most = [700.0, 300.0, 700.0, 300.0];
        check(
            &judge_all(&table, &[4.3, 7.0, 16.0, 9.3], 1),
            &most,
            2000.0,
            Verdict::Pass,
        );
        check(
            &judge_all(&table, &[3.0, 2.0, 10.0, 9.9], 1),
            &most,
            2000.0,
            Verdict::Pass,
        );
    }

    /// The sum of what the others earn is 1300, and would be 1275 if the line of the first criterion ran
    /// on past its limit to −25: both are above 1000, and yet it fails.
    #[test]
    fn one_result_past_its_limit_fails_the_whole() {
        let sum = judge_all(&valve_train(), &[7.2, 7.0, 16.0, 9.3], 1);
        check(
            &sum,
            &[f64::NAN, 300.0, 700.0, 300.0],
            1300.0,
            Verdict::PastLimit,
        );
        assert_eq!(sum.criteria[0].outcome, Outcome::PastLimit);
        let run_on: f64 = 350.0 * (7.1 - 7.2) / (7.1 - 5.7);
        assert!((run_on + sum.sum - 1275.0).abs() < 1e-9);
    }

    /// Table and formula from memory, the arithmetic by hand: 250·1.5 + 200·1.5 + 200·0.5 + 200·1.5 + 150·0.5.
    #[test]
    fn ring_and_liner_table() {
        check(
            &judge_all(&ring_and_liner(), &[16.0, 52.5, 30.0, 5.0, 75.0], 1),
            &[375.0, 300.0, 100.0, 300.0, 75.0],
            1150.0,
            Verdict::Pass,
        );
    }

    /// The weights of both tables sum to the mark (ASTM D7468 read, D7422 from memory).
    #[test]
    fn all_anchors_earn_the_mark() {
        let weights = |table: &[Criterion]| table.iter().map(|c| c.weight).sum::<f64>();
        assert!((weights(&valve_train()) - REQUIRED).abs() < 1e-9);
        assert!((weights(&ring_and_liner()) - REQUIRED).abs() < 1e-9);
    }

    /// ASTM D7468 (read) limits the top ring mass loss to 100 mg with weight 0 and anchor 100.
    #[test]
    fn weight_0_is_a_pure_limit() {
        let ring = criterion(0.0, 100.0, 100.0, 0.0);
        assert_eq!(ring.check(1), Ok(()));
        assert_eq!(ring.merits(60.0), Some(0.0));
        assert_eq!(ring.merits(100.0), Some(0.0));
        assert_eq!(ring.merits(101.0), None);
        let alone = |result| Case {
            criterion: ring,
            result: Some(result),
            decimals: 0,
        };
        assert_eq!(judge(&[alone(100.4)], 0.0).unwrap().verdict, Verdict::Pass);
        assert_eq!(
            judge(&[alone(100.6)], 0.0).unwrap().verdict,
            Verdict::PastLimit
        );
    }

    #[test]
    fn open_criteria_leave_the_verdict_open_while_it_hangs_on_them() {
        let [heavy, light, ..] = valve_train();
        let case = |criterion, result| Case {
            criterion,
            result,
            decimals: 1,
        };
        let verdict = |cases: &[Case], required| judge(cases, required).unwrap().verdict;
        let open = [case(heavy, Some(5.7)), case(light, None)];
        assert_eq!(verdict(&open, 600.0), Verdict::Open);
        assert_eq!(verdict(&open, 100.0), Verdict::Open); // the open one may yet fail
        assert_eq!(verdict(&open, 651.0), Verdict::TooFewMerits); // 350 + 300 is the most
        let failed = [case(heavy, Some(9.0)), case(light, None)];
        assert_eq!(verdict(&failed, 100.0), Verdict::PastLimit);
    }

    #[test]
    fn criteria_that_contradict_themselves_are_refused() {
        let say = |criterion: Criterion| criterion.check(2).unwrap_err().to_string();
        assert_eq!(
            say(criterion(100.0, 10.0, 12.0, 5.0)),
            "criterion 2: the anchor 12 must lie between the limit 10 and the best credit 5"
        );
        assert_eq!(
            say(criterion(-1.0, 10.0, 8.0, 5.0)),
            "criterion 2: the weight is -1: allowed is a finite number, for a weight 0 or more"
        );
        assert!(criterion(100.0, 10.0, 10.0, 5.0).check(1).is_err());
        assert!(criterion(0.0, 10.0, 10.0, 10.0).check(1).is_err());
        assert!(criterion(100.0, f64::NAN, 8.0, 5.0).check(1).is_err());
        assert!(
            judge(
                &[Case {
                    criterion: criterion(1.0, 1.0, 1.0, 1.0),
                    result: None,
                    decimals: 0
                }],
                0.0
            )
            .is_err()
        );
    }

    /// The single test of ASTM D6750 1N as pure limits of the merit calculator.
    #[test]
    fn one_n_as_pure_limits() {
        let limits = [286.2, 20.0, 3.0].map(|limit| criterion(0.0, limit, limit, 0.0));
        let verdict = |results: [f64; 3]| {
            let cases: Vec<Case> = limits
                .iter()
                .zip(results)
                .map(|(criterion, result)| Case {
                    criterion: *criterion,
                    result: Some(result),
                    decimals: decimals_of(criterion.limit),
                })
                .collect();
            judge(&cases, 0.0).unwrap().verdict
        };
        assert_eq!(verdict([286.2, 20.0, 3.0]), Verdict::Pass);
        assert_eq!(verdict([286.3, 20.0, 3.0]), Verdict::PastLimit);
        assert_eq!(verdict([171.5, 20.0, 4.0]), Verdict::PastLimit);
    }

    /// Criteria of either direction, with room between limit, anchor and best credit.
    fn criteria() -> impl Strategy<Value = Criterion> {
        (
            0.0..500.0f64,
            -100.0..100.0f64,
            0.1..50.0f64,
            0.1..50.0f64,
            any::<bool>(),
        )
            .prop_map(|(weight, anchor, to_limit, to_best, smaller)| {
                let turn = if smaller { 1.0 } else { -1.0 };
                criterion(
                    weight,
                    anchor + turn * to_limit,
                    anchor,
                    anchor - turn * to_best,
                )
            })
    }

    proptest! {
        #[test]
        fn limit_anchor_and_best_credit_earn_0_w_and_2w(c in criteria()) {
            prop_assert_eq!(c.check(1), Ok(()));
            prop_assert_eq!(c.merits(c.limit), Some(0.0));
            prop_assert_eq!(c.merits(c.anchor), Some(c.weight));
            prop_assert_eq!(c.merits(c.best), Some(2.0 * c.weight));
        }

        #[test]
        fn a_better_result_never_earns_less(c in criteria(), s in -1.0..3.0f64, t in -1.0..3.0f64) {
            // 0 at the limit, 1 at the best credit, beyond either outside.
            let at = |t: f64| c.limit + t * (c.best - c.limit);
            let earned = |t: f64| c.merits(at(t)).unwrap_or(-1.0);
            let (worse, better) = (s.min(t), s.max(t));
            prop_assert!(earned(worse) <= earned(better) + 1e-9);
            prop_assert!(earned(better) <= 2.0 * c.weight);
            if worse < -1e-9 {
                prop_assert_eq!(c.merits(at(worse)), None);
            }
        }

        #[test]
        fn merits_run_without_a_jump(c in criteria(), t in 0.0..1.2f64) {
            let at = |t: f64| c.limit + t * (c.best - c.limit);
            let step = 1e-7;
            let steepest = 500.0 * (c.best - c.limit).abs() / 0.1;
            let (here, there) = (c.merits(at(t)), c.merits(at(t + step)));
            if let (Some(here), Some(there)) = (here, there) {
                prop_assert!((here - there).abs() <= steepest * step * 1.01 + 1e-9);
            }
        }

        #[test]
        fn nothing_panics(number in any::<f64>(), decimals in 0usize..20, c in any::<[f64; 4]>()) {
            let criterion = criterion(c[0], c[1], c[2], c[3]);
            let _ = criterion.merits(number);
            let case = Case { criterion, result: Some(number), decimals };
            let _ = judge(&[case, case], number);
        }
    }
}
