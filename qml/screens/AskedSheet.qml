// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick

// A sheet that asks something of the workshop: it stays, with what was typed, until that is done,
// and says what came in the way.
//   asks: as what it asks;  signal opened(): it is shown, to be emptied
TellingSheet {
    id: root

    required property string asks
    readonly property bool free: !ask.busy

    signal opened

    onDismissed: root.shown = false
    onShownChanged: {
        if (root.shown) {
            root.ask.dismiss()
            root.opened()
        }
    }

    Connections {
        target: root.ask

        function onDone(what: string): void {
            if (what === root.asks)
                root.shown = false
        }
    }
}
