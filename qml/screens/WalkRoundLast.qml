// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// What was recorded last: a photo of it is offered, and it can be taken back.
//   walk;  signal photoWanted(int findingId, string words)
Item {
    id: root

    required property WalkRound walk

    signal photoWanted(int findingId, string words)

    implicitHeight: visible ? column.height : 0
    visible: walk.lastFinding > 0

    Column {
        id: column

        width: parent.width
        spacing: Theme.gap

        Label {
            width: parent.width
            text: qsTr("Recorded: %1").arg(root.walk.lastWords)
            strong: true
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }

        Row {
            spacing: Theme.gap

            ActionButton {
                paper: true
                symbol: Icon.Camera
                text: qsTr("Photo of it")
                onTapped: root.photoWanted(root.walk.lastFinding, root.walk.lastWords)
            }

            ActionButton {
                paper: true
                text: qsTr("Take it back")
                onTapped: root.walk.takeBack(root.walk.lastFinding)
            }
        }
    }
}
