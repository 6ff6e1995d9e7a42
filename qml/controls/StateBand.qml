// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Drawing

// The edge of a card: its state as a shape. Anchor it to the left edge, top to bottom.
//   band: StateBand.Empty (waiting) | InHand | Paused | AwaitingCheck | Closed | LeftAsIs | Blocked | Held | None
//   A card that is ready has band None and a FoldedCorner.
EdgeDrawing {
    id: root

    enum Band {
        Empty,
        InHand,
        Paused,
        AwaitingCheck,
        Closed,
        LeftAsIs,
        Blocked,
        Held,
        None
    }

    band: StateBand.Empty
    implicitWidth: Theme.band
    implicitHeight: Theme.touch
    radius: Theme.radius
    lineWidth: Theme.thickLine
    strong: band === StateBand.Blocked ? Theme.ink : Theme.accent
    faint: Theme.paperLine
    hazard: Theme.hazard
    hazardInk: Theme.hazardInk
}
