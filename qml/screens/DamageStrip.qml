// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Kiosk

// Along the upper edge of every screen while the workshop's file is damaged and somebody goes on
// with what can be read of it.
//   recovery
UpperStrip {
    id: root

    required property RecoveryView recovery

    shown: root.recovery.waits
    what: qsTr("The workshop's file is damaged")
    detail: qsTr("What is missing cannot be told, and what is signed from now on is in no backup. No car is released until the last one is back.")
    action: qsTr("What can be done")
    onActed: root.recovery.takeUp()
}
