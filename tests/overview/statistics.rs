//! Statistics against published data sets and other programs.
//!
//! Data: remission times of leukaemia patients (E. J. Freireich et al., Blood 21, 1963), with 6-MP and with
//! placebo; survival with acute myelogenous leukaemia under maintenance (R. G. Miller, Survival Analysis,
//! 1981). Kaplan-Meier and bands: lifelines 0.30.3. Weibull: the root of the likelihood by `brentq` of SciPy
//! 1.17.1; lifelines agrees to five digits, as far as it converges. Wilson: `binomtest` of SciPy; 15 of 148
//! and 81 of 263 are examples of R. G. Newcombe, Stat. Med. 17, 1998, table I.

#![allow(clippy::unreadable_literal, reason = "figures stand as the other programs print them")]

use splitcase::overview::quartiles::Quartiles;
use splitcase::overview::share::Share;
use splitcase::overview::survival::{Observation, Step, kaplan_meier, median};
use splitcase::overview::weibull::Weibull;

fn units(distances: &[f64], failed: &[u8]) -> Vec<Observation> {
    let both = distances.iter().zip(failed);
    both.map(|(at, failed)| Observation { at: *at, failed: *failed == 1 }).collect()
}

fn mercaptopurine() -> Vec<Observation> {
    units(
        &[
            6., 6., 6., 6., 7., 9., 10., 10., 11., 13., 16., 17., 19., 20., 22., 23., 25., 32.,
            32., 34., 35.,
        ],
        &[1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0],
    )
}

fn placebo() -> Vec<Observation> {
    let weeks = [
        1., 1., 2., 2., 3., 4., 4., 5., 5., 8., 8., 8., 8., 11., 11., 12., 12., 15., 17., 22., 23.,
    ];
    units(&weeks, &[1; 21])
}

fn maintained() -> Vec<Observation> {
    units(
        &[9., 13., 13., 18., 23., 28., 31., 34., 45., 48., 161.],
        &[1, 1, 0, 1, 1, 0, 1, 1, 0, 1, 0],
    )
}

fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-6, "{found}, expected {expected}");
}

fn agree(steps: &[Step], expected: &[[f64; 4]]) {
    assert_eq!(steps.len(), expected.len());
    for (step, [at, surviving, low, high]) in steps.iter().zip(expected) {
        near(step.km, *at);
        near(step.surviving, *surviving);
        near(step.low, *low);
        near(step.high, *high);
    }
}

#[test]
fn the_curve_and_its_bands_are_those_of_other_programs() {
    let steps = kaplan_meier(&mercaptopurine());
    agree(
        &steps,
        &[
            [6., 0.857142857142857, 0.6197179552659838, 0.9515517476469969],
            [7., 0.8067226890756299, 0.5631465646222333, 0.9228090192028802],
            [10., 0.7529411764705878, 0.5031995107999564, 0.8893618351692651],
            [13., 0.6901960784313722, 0.4316102224861839, 0.8490659633494505],
            [16., 0.6274509803921566, 0.36751085598750194, 0.8049121894718411],
            [22., 0.5378151260504199, 0.26777893676713493, 0.7467907176353943],
            [23., 0.44817927170868327, 0.18805200595923233, 0.6801426284952412],
        ],
    );
    assert_eq!(median(&steps), Some(23.));
    let first = steps[0];
    assert_eq!((first.at_risk, first.failures), (21, 3));
    agree(
        &kaplan_meier(&maintained()),
        &[
            [9., 0.9090909090909092, 0.5080802057699292, 0.9866738226678231],
            [13., 0.8181818181818182, 0.4474286146821811, 0.9511622285824918],
            [18., 0.715909090909091, 0.3501903859079383, 0.8990239741910536],
            [23., 0.6136363636363638, 0.26575204000128605, 0.8352992432502216],
            [31., 0.490909090909091, 0.16733090977685078, 0.7533997903708115],
            [34., 0.36818181818181833, 0.09282957493698518, 0.657040832398164],
            [48., 0.18409090909090914, 0.01173848012318958, 0.5250148427266417],
        ],
    );
    // Without censoring the curve is the share that is left, down to nothing.
    let bare = kaplan_meier(&placebo());
    near(bare[0].surviving, 19. / 21.);
    assert_eq!(bare.last().map(|step| (step.surviving, step.low, step.high)), Some((0., 0., 0.)));
    assert!(kaplan_meier(&[]).is_empty());
}

#[test]
fn the_distribution_is_the_one_of_greatest_likelihood() {
    let fit = |units: &[Observation]| Weibull::fit(units, &kaplan_meier(units));
    let drug = mercaptopurine();
    // Nine failures are too few; one more that is none of the data set, and the bound is met.
    assert_eq!(fit(&drug), None);
    let twice: Vec<Observation> = [drug.clone(), drug].concat();
    let fitted = fit(&twice).unwrap();
    near(fitted.shape, 1.3537345238262206);
    near(fitted.scale, 33.765150967634966);
    let fitted = fit(&placebo()).unwrap();
    near(fitted.shape, 1.370499859282944);
    near(fitted.scale, 9.482141255536671);
    near(fitted.surviving(fitted.scale), (-1.0_f64).exp());
    assert!(0.0 < fitted.farthest && fitted.farthest < 0.2, "{}", fitted.farthest);
    // The unit of the distance changes the scale alone.
    let metres: Vec<Observation> =
        placebo().iter().map(|one| Observation { at: one.at * 1e6, ..*one }).collect();
    let large = fit(&metres).unwrap();
    near(large.shape, fitted.shape);
    near(large.scale / 1e6, fitted.scale);
    // All at one distance: nothing can be drawn through that.
    assert_eq!(fit(&units(&[5.; 12], &[1; 12])), None);
}

#[test]
fn shares_have_the_interval_of_wilson() {
    for (count, of, low, high) in [
        (0, 10, 0.0, 0.27753279986288926),
        (1, 10, 0.017876213095072896, 0.4041500267952385),
        (15, 148, 0.06238639953073629, 0.16048724172330803),
        (81, 263, 0.2552885198782742, 0.36620957698280004),
        (10, 10, 0.7224672001371109, 1.0),
        (3, 7, 0.1582198552514697, 0.7495416354723428),
    ] {
        let share = Share::of(count, of).unwrap();
        near(share.low, low);
        near(share.high, high);
    }
    assert_eq!(Share::of(0, 0), None);
}

/// The example of R's `quantile`, type 7: 1, 2, 3, 4.
#[test]
fn quarters_lie_between_the_figures_beside_them() {
    let quarters = Quartiles::of(&[4., 1., 3., 2.]).unwrap();
    assert_eq!((quarters.lower, quarters.median, quarters.upper), (1.75, 2.5, 3.25));
    assert_eq!(Quartiles::of(&[7.]).map(|one| (one.lower, one.upper)), Some((7., 7.)));
    assert_eq!(Quartiles::of(&[]), None);
}
