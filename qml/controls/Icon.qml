// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Drawing

// A small drawing, where a shape says it faster than a word.
//   symbol: Icon.Caution | Camera | Back | Person | Search | Erase | Shift | Tick | Cross |
//           HideKeys | HatchMark (beside a safety item) | RingMark (beside an ordinary item)
//   colour: its line;  ground: the fill of Caution and HatchMark
SymbolDrawing {
    id: root

    enum Symbol {
        NoSymbol,
        Caution,
        Camera,
        Back,
        Person,
        Search,
        Erase,
        Shift,
        Tick,
        Cross,
        HideKeys,
        HatchMark,
        RingMark
    }

    implicitWidth: Theme.mm(7)
    implicitHeight: Theme.mm(7)
    colour: Theme.ink
    ground: Theme.hazard
    Accessible.ignored: true
}
