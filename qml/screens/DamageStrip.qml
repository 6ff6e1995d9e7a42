// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Kiosk

// Along the upper edge of every screen while the workshop's file is damaged and somebody goes on
// with what can be read of it.
//   recovery, storeFault: what cannot be read, in words; empty
UpperStrip {
    id: root

    required property RecoveryView recovery
    required property string storeFault

    shown: root.recovery.waits
    what: root.shown ? qsTr("The workshop's file is damaged") : ""
    detail: !root.shown ? "" : root.recovery.remakable ? qsTr("Nothing is lost: the ledger is whole, and the file can be made anew out of it. No car is released until then.")
        : root.storeFault.length > 0 ? qsTr("%1 What is signed from now on is in no backup, and no car is released until the last one is back.").arg(root.storeFault)
        : qsTr("What is missing cannot be told, and what is signed from now on is in no backup. No car is released until the last one is back.")
    action: root.shown ? qsTr("What can be done") : ""
    onActed: root.recovery.takeUp()
}
