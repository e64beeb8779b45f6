//! The pixel budget: large photos wait, permits come back.

use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::Duration;

use image::ImageFormat;
use splitcase::photo::{PixelBudget, PrintSize, prepare};

use super::{drawing, file};

#[test]
fn a_photo_that_finds_no_room_waits_for_it() {
    let budget = PixelBudget::of(64 * 48);
    let jpeg = file(drawing(64, 48), ImageFormat::Jpeg);
    let is_done = AtomicBool::new(false);
    thread::scope(|scope| {
        let permit = budget.wait_for(1);
        scope.spawn(|| {
            let room = PrintSize::of_mm(137.0, 137.0);
            let photo = prepare(&jpeg, room, &budget);
            is_done.store(true, Ordering::SeqCst);
            assert!(photo.is_ok());
        });
        thread::sleep(Duration::from_millis(150));
        assert!(!is_done.load(Ordering::SeqCst), "it must wait");
        drop(permit);
    });
    assert!(is_done.load(Ordering::SeqCst));
    assert_eq!(budget.free(), 64 * 48);
}

#[test]
fn a_photo_above_the_whole_budget_runs_alone() {
    let budget = PixelBudget::of(100);
    let permit = budget.wait_for(5_000);
    assert_eq!(budget.free(), 0);
    drop(permit);
    assert_eq!(budget.free(), 100);
}

#[test]
fn a_panic_gives_its_pixels_back() {
    let budget = PixelBudget::of(100);
    let panicked = thread::scope(|scope| {
        scope
            .spawn(|| {
                let _permit = budget.wait_for(70);
                std::panic::resume_unwind(Box::new("decoder"));
            })
            .join()
            .is_err()
    });
    assert!(panicked);
    assert_eq!(budget.free(), 100);
}

#[test]
fn a_refused_photo_gives_its_pixels_back() {
    let budget = PixelBudget::default();
    let whole = budget.free();
    assert_eq!(whole, 128_000_000);
    let png = file(drawing(64, 48), ImageFormat::Png);
    let refused = prepare(&png[..png.len() / 2], PrintSize::of_mm(137.0, 137.0), &budget);
    assert!(refused.is_err());
    assert_eq!(budget.free(), whole);
}
