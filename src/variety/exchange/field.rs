//! The fields of a variety as columns have them.

/// A field of a variety as a column has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // Their headings say what each is.
pub enum Field {
    Name,
    Raiser,
    Form,
    FormKnown,
    FormBy,
    Bloom,
    Size,
    Diameters,
    StatedDiameter,
    Colours,
    Colour,
    SecondColour,
    ReverseColour,
    CentreColour,
    Pattern,
    Height,
    PlantHeights,
    Stem,
    StemLengths,
    Foliage,
    Vase,
    VaseStems,
    Stated,
    StatedBy,
    Weather,
    StemsAWeek,
    StemsAPlant,
    OnHand,
    Offers,
    Supplier,
    Price,
    Pack,
    Available,
    AvailableTubers,
    Closes,
    Protected,
    Licence,
    Notes,
    Shortlist,
    ShortlistNote,
}

impl Field {
    /// Whether its cells are lengths.
    pub fn is_length(self) -> bool {
        matches!(
            self,
            Field::Size
                | Field::Diameters
                | Field::StatedDiameter
                | Field::Height
                | Field::PlantHeights
                | Field::Stem
                | Field::StemLengths
        )
    }
}
