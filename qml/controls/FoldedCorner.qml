// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Drawing

// The folded corner of a card that is ready for release. Anchor it to the card's lower right with
// margins of -1, so that no edge of the card shows beside it.
//   behind: the tone that the card lies on
EdgeDrawing {
    id: root

    property color behind: Theme.ground

    band: 9
    implicitWidth: Theme.mm(15)
    implicitHeight: Theme.mm(15)
    radius: Theme.radius * 2
    strong: Theme.accent
    faint: behind
}
