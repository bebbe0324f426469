//! One floret laid down, its tip up: the tip, the width, the part that is rolled, and three of them.

use std::f64::consts::PI;

use kurbo::Affine;

use super::stage::Stage;
use crate::draw::bloom::Bloom;
use crate::draw::floret::Floret;
use crate::draw::head;
use crate::draw::pointer::Pointer;
use crate::draw::view::View;

/// How far up the middle of a floret is that reaches from the stem to the rim.
const HALF_WAY: f64 = -0.5;

/// The outermost floret, standing up.
fn outermost(bloom: &Bloom) -> Option<Floret> {
    let floret = head::florets(bloom, View::Face).into_iter().next()?;
    Some(Floret {
        turn: -PI / 2.0,
        ..floret
    })
}

/// Its outer half.
pub(super) fn tip(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, -0.72), 0.36);
    if let Some(floret) = outermost(bloom) {
        stage.part(&floret, 0.5, 1.0);
    }
}

/// All of it, and below its base a third of its length.
pub(super) fn width(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, -0.42), 0.62);
    if let Some(floret) = outermost(bloom) {
        stage.part(&floret, 0.0, 1.0);
        let sixth = 1.0 / 6.0;
        stage
            .pointers
            .push(Pointer::across((-sixth, 0.1), (sixth, 0.1)));
    }
}

/// All of it, and beside it how far its edges are rolled.
pub(super) fn rolled(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, HALF_WAY), 0.56);
    if let Some(floret) = outermost(bloom) {
        stage.part(&floret, 0.0, 1.0);
        let aside = 0.38;
        let end = HALF_WAY - 0.4;
        stage.pointers.push(Pointer::across(
            (aside, end),
            (aside, end + 0.8 * bloom.rolled),
        ));
    }
}

/// One from the centre, one from half way, one from the back.
pub(super) fn gradient(bloom: &Bloom, stage: &mut Stage<'_>) {
    stage.seen_about((0.0, HALF_WAY), 0.7);
    let Some(floret) = outermost(bloom) else {
        return;
    };
    for (share, aside) in [(0.0, -0.42), (0.5, 0.0), (1.0, 0.42)] {
        let long = head::length(bloom, share);
        let from = stage.sheet.patches.len();
        stage.part(&floret, 0.0, 1.0);
        let place = Affine::translate((aside, 0.0)) * Affine::scale_non_uniform(0.75, long);
        for patch in &mut stage.sheet.patches[from..] {
            patch.outline.path.apply_affine(place);
        }
    }
}
