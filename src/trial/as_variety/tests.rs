use super::*;
use crate::colour::{Lab, Target, Vocabulary};
use crate::trial::evidence::tests::{BALL, Bench};
use crate::variety::{Index, IndexContext, Quantity, Reach};

const CREDENCE: f64 = 0.95;

#[test]
fn a_seedling_is_scored_by_the_code_that_scores_varieties() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        &format!("date=2026-08-01 {BALL} diameter=80mm,82mm,81mm colour='coral,second:lab(92 -1 19)' stem=52cm,54cm cut=6 plants=2 height=105cm"),
        &format!("date=2026-08-14 {BALL} diameter=81mm,82mm vase=8,9,9,8,9+ weather=wind:1/9 cut=4"),
    ]);
    let variety = seen.as_variety(&bench.keyer, CREDENCE, None);
    assert_eq!(variety.name.as_str(), "24-001");
    assert_eq!(
        variety.form.as_ref().map(|form| form.id.as_str()),
        Some("miniature-ball")
    );
    assert_eq!((variety.diameters.len(), variety.weather.len()), (5, 1));
    assert_eq!(lengths(&variety.stem_lengths), [520.0, 540.0]);
    assert_eq!(lengths(&variety.plant_heights), [1050.0]);
    // What was measured is nobody's statement.
    assert_eq!((variety.stem, variety.height), (None, None));
    assert_eq!(variety.stems_a_plant.map(NonZeroU32::get), Some(5));
    let colours = variety.colours.iter();
    let colours: Vec<_> = colours
        .map(|note| (note.colour.clone(), note.pattern))
        .collect();
    let coral = Text::new("coral").expect("a word");
    assert_eq!(
        colours,
        [
            // What was noted by word is not turned into a measured colour.
            (coral.into(), Pattern::Blend),
            (
                KnownColour::Measured(Lab::new(92.0, -1.0, 19.0)),
                Pattern::Blend
            )
        ]
    );
    let uses = Uses::embedded();
    let release = Release::embedded();
    let fits = seen.fits((&bench.keyer, &uses), &release, 0.5, None, SizeUnits::Mm);
    let bunch = &fits[uses.find("market-bunch").expect("a use")];
    // Five stems in the vase are fewer than the gate asks for.
    assert_eq!(bunch.ground, Some(FitBasis::Expected));
    assert!(
        bunch.fitness.is_some_and(|fitness| fitness > 0.9),
        "{bunch:?}"
    );
    assert!(
        bunch
            .reasons
            .iter()
            .any(|reason| reason.text.contains("9.0 days observed of 5 stems")),
        "{bunch:?}"
    );
    // Keyed again from the record, the bloom is what it was.
    assert_eq!(
        variety.keyed_under(&bench.keyer.set),
        bench.keyer.set.find("miniature-ball")
    );
}

/// Neither the form nor a use is made from looks that settle no form, however strictly their
/// answers could be keyed.
#[test]
fn looks_that_settle_no_form_make_none_for_choose() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        "date=2026-08-01 centre=closed tip=split set=wavy diameter=110mm",
        "date=2026-08-10 centre=closed tip=pointed roll=back rolled=90 line=straight set=regular",
        "date=2026-08-20 centre=closed tip=rounded roll=flat set=regular outline=saucer",
    ]);
    assert_eq!(seen.form.settled(CREDENCE), None);
    let variety = seen.as_variety(&bench.keyer, CREDENCE, None);
    assert_eq!(variety.form_under(&bench.keyer.set), None);
    let traits = &bench.keyer.set.traits;
    assert_eq!(
        variety.bloom.as_ref().and_then(KnownBloom::written),
        None,
        "what was answered goes on as answers"
    );
    let looks = Variety {
        diameters: Vec::new(),
        ..variety.clone()
    };
    assert_eq!(
        looks.answers(traits).map(|looks| looks.print(traits)),
        Ok("centre=closed".to_string())
    );
    let uses = Uses::embedded();
    let release = Release::embedded();
    let fits = seen.fits((&bench.keyer, &uses), &release, 0.5, None, SizeUnits::Mm);
    // All agree that its centre is closed, which is seen and speaks against one use.
    let said: Vec<(usize, Option<FitBasis>)> = fits
        .iter()
        .filter(|fit| fit.ground.is_some())
        .map(|fit| (fit.use_at, fit.ground))
        .collect();
    let pollinators = uses.find("pollinators").expect("a use");
    assert_eq!(said, [(pollinators, Some(FitBasis::Own))]);
    assert!(fits[pollinators].fitness < Some(0.1));
    // What the list has keyed stands beside them.
    let keyed = Variety {
        bloom: Text::new(BALL).ok().map(KnownBloom::from),
        diameters: vec!["100mm".parse().expect("a length")],
        ..Variety::named(Text::new("Haaf Keyed").expect("a name"))
    };
    let both = seen.as_variety(&bench.keyer, CREDENCE, Some(&keyed));
    assert_eq!(both.bloom, keyed.bloom);
}

/// The colour that is chosen by is the one that was measured, to its last digit.
#[test]
fn a_measured_colour_keeps_all_its_digits() {
    let bench = Bench::new();
    let seen = bench.evidence(&[
        "colour='lab(61.37 41.83 22.91)'",
        "colour='lab(60.12 43.04 20.09)'",
        "colour='lab(59.99 40.07 24.66)'",
    ]);
    let measured = seen.colours[0].mean;
    let variety = seen.as_variety(&bench.keyer, CREDENCE, None);
    let list = Varieties::of(vec![variety]).expect("one name");
    let (uses, words) = (Uses::embedded(), Vocabulary::embedded());
    let grounds = IndexContext {
        rules: &bench.keyer.set,
        uses: &uses,
        words: &words,
        stems_a_plant: 8.0,
        season: None,
    };
    let index = Index::new(&list, grounds);
    let target = Target::point(Lab::new(55.5, 44.4, 33.3));
    let distance = index.distances(std::slice::from_ref(&target)).of(0);
    assert_eq!(distance, target.distance(measured));
    let nearly = Lab::new(60.5, 41.6, 22.6);
    assert!(
        (distance - target.distance(nearly)).abs() > 1e-3,
        "{measured:?}"
    );
}

#[test]
fn what_a_list_states_stands_beside_what_was_tested_here() {
    let bench = Bench::new();
    let mut noted = Variety::named(Text::new("Haaf Said").expect("a name"));
    let days = Days::try_from(7.0).expect("days");
    noted.vase = Some(VaseLife { days, stems: None });
    noted.stem = "60cm".parse().ok();
    let seen = bench.evidence(&["stem=52cm,54cm vase=4,4,4"]);
    let both = seen.as_variety(&bench.keyer, CREDENCE, Some(&noted));
    assert_eq!(both.vase_days().map(Days::get), Some(4.0));
    assert_eq!(both.stated_vase().collect::<Vec<_>>(), [(days, None)]);
    let uses = Uses::embedded();
    let known = Known::of(&both, &bench.keyer.set, &uses);
    let stem = known.number(Quantity::Stem).expect("measured");
    // (2 * 53 + 3 * 60) / 5: a statement is worth three stems.
    assert_eq!((stem.observed, stem.value), (Some(53.0), 57.2));
}

fn lengths(measured: &[Extent]) -> Vec<f64> {
    measured.iter().map(|one| one.mm()).collect()
}

/// The stem that is chosen by is the mean of those that were measured.
#[test]
fn a_mean_length_keeps_all_its_digits() {
    let bench = Bench::new();
    let seen = bench.evidence(&["stem=52cm,54cm,54.1cm height=105.3cm"]);
    let variety = seen.as_variety(&bench.keyer, CREDENCE, None);
    let mean = seen.stem.as_ref().map(|sample| sample.mean / 10.0);
    let uses = Uses::embedded();
    let known = Known::of(&variety, &bench.keyer.set, &uses);
    let stem = known.number(Quantity::Stem).expect("measured");
    assert_eq!((stem.observed, stem.count), (mean, 3.0));
    assert_eq!(variety.height_known().map(Reach::middle_mm), Some(1053.0));
}

#[test]
fn a_stem_still_fresh_is_never_taken_as_ended() {
    let bench = Bench::new();
    let vase = |test: &str| {
        let life = bench.evidence(&[&format!("vase={test}")]).vase_life();
        life.map(|life| (life.days.get(), life.stems.map_or(0, NonZeroU32::get)))
    };
    assert_eq!(
        vase("4+,4+,4+,4+"),
        None,
        "nothing is known but that it lasts over 4 days"
    );
    assert_eq!(vase("6,8,9,7,8"), Some((8.0, 5)));
    // The median is reached, and no more hangs on those that were fresh on day 9.
    assert_eq!(vase("6,8,8,9+,9+"), Some((8.0, 5)));
    // One of six ended: (3 + 5 * 6) / 6 days is too little, so it weighs as one stem.
    assert_eq!(vase("3,6+,6+,6+,6+,6+"), Some((5.5, 1)));
}

#[test]
fn a_trialled_variety_s_evidence_reaches_its_record_and_the_list_stays() {
    let bench = Bench::new();
    let trial = bench.trial(&[
        (
            "Haaf Light",
            "date=2026-08-01 vase=4,4,4,5,4,4 weather=wind:9/10",
        ),
        ("24-001", "cut=3"),
    ]);
    let informed = trial.informed(&bench.list, &bench.under(), CREDENCE);
    let (before, after) = (&bench.list.list()[0], &informed.list()[0]);
    assert_eq!(
        (before.vase, after.vase.map(|vase| vase.days.get())),
        (None, Some(4.0))
    );
    assert_eq!(
        (informed.len(), &informed.list()[1]),
        (3, &bench.list.list()[1])
    );
    let uses = Uses::embedded();
    let exposed = &uses.list()[uses.find("exposed").expect("a use")];
    let fitness = |variety| Known::of(variety, &bench.keyer.set, &uses).fitness(exposed);
    assert!(
        fitness(after) < fitness(before),
        "{:?} {:?}",
        fitness(after),
        fitness(before)
    );
}

#[test]
fn a_test_takes_the_place_of_what_is_stated_and_adds_to_a_test() {
    let life = |days: f64, stems: u32| VaseLife {
        days: Days::try_from(days).expect("days"),
        stems: NonZeroU32::new(stems),
    };
    assert_eq!(
        merged(Some(life(9.0, 0)), Some(life(5.0, 6))),
        Some(life(5.0, 6))
    );
    assert_eq!(
        merged(Some(life(8.0, 6)), Some(life(5.0, 12))),
        Some(life(6.0, 18))
    );
    assert_eq!(merged(Some(life(8.0, 6)), None), Some(life(8.0, 6)));
}
