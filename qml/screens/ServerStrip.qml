// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Kiosk

// Along the upper edge of every screen while the workshop's server is away, while something that was
// done here waits or was refused, or while somebody has to read what befell this kiosk. It stays
// until none of this is so.
//   server;  signal wanted(): somebody wants to see what is kept
UpperStrip {
    id: root

    required property ServerView server

    signal wanted

    shown: root.server.shown
    what: root.server.what
    detail: root.server.detail
    action: root.server.waiting + root.server.refused + root.server.notices > 0 ? qsTr("What is kept here") : ""
    onActed: root.wanted()
}
