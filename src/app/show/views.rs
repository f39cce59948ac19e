//! Which of several pictures is shown: one after the other, or to one and back.

use crate::drawing::PictureView;

/// Pictures of which one is shown.
#[derive(Clone, Copy, Debug)]
pub(super) struct Views {
    all: &'static [PictureView],
    at: usize,
    /// The one that another was asked for from.
    before: Option<usize>,
}

impl Views {
    /// Begins with a picture; with the first where it is none of them.
    pub(super) fn of(all: &'static [PictureView], view: PictureView) -> Self {
        let at = place_of(all, view);
        Self {
            all,
            at,
            before: None,
        }
    }

    /// The picture that is shown.
    pub(super) fn view(self) -> PictureView {
        self.all[self.at]
    }

    /// Whether it is the first.
    pub(super) fn is_first(self) -> bool {
        self.at == 0
    }

    /// So many pictures on; it stops at the first and at the last.
    pub(super) fn go(&mut self, by: isize) {
        self.at = self.at.saturating_add_signed(by).min(self.all.len() - 1);
        self.before = None;
    }

    /// To a picture, and back to the one before.
    pub(super) fn go_to_or_back(&mut self, view: PictureView) {
        let at = place_of(self.all, view);
        if self.at == at {
            self.at = self.before.take().unwrap_or(0);
        } else {
            self.before = Some(self.at);
            self.at = at;
        }
    }
}

fn place_of(all: &[PictureView], view: PictureView) -> usize {
    let at = all.iter().position(|other| *other == view);
    at.unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn to_the_lens_and_back_from_wherever_one_was() {
        let mut views = Views::of(&PictureView::ALL, PictureView::Budget);
        views.go_to_or_back(PictureView::Lens);
        assert_eq!(views.view(), PictureView::Lens);
        views.go_to_or_back(PictureView::Motion);
        views.go_to_or_back(PictureView::Motion);
        assert_eq!(views.view(), PictureView::Lens);
        views.go(isize::MIN);
        assert!(views.is_first());
        views.go(isize::MAX);
        assert_eq!(Some(&views.view()), PictureView::ALL.last());
        // Begun with, it leads back to the first.
        let mut views = Views::of(&PictureView::ALL, PictureView::Motion);
        views.go_to_or_back(PictureView::Motion);
        assert!(views.is_first());
    }
}
