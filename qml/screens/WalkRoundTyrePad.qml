// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Twelve tread readings, two digits each; the plan beside it shows where the next one goes.
//   walk;  signal photoWanted(int findingId, string words)
Item {
    id: root

    required property WalkRound walk
    readonly property TyrePad pad: walk.tyres
    readonly property real key: Math.min(Theme.mm(27), (height - 3 * Theme.gap) / 4)

    signal photoWanted(int findingId, string words)

    Column {
        anchors { left: parent.left; right: keys.left; rightMargin: Theme.module; top: parent.top }
        spacing: Theme.half

        Label {
            width: parent.width
            text: root.pad.title
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.pad.pointWords.length > 0
            text: root.pad.pointWords + "  " + (root.pad.shown.length > 0 ? root.pad.shown : "–.") + "– mm"
            role: Label.Title
        }

        Label {
            width: parent.width
            text: qsTr("%1 of 12 readings; two digits each, 4 5 is 4.5 mm; %2.").arg(root.pad.taken).arg(root.pad.limitWords)
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }
    }

    WalkRoundLast {
        anchors { left: parent.left; right: keys.left; rightMargin: Theme.module; bottom: parent.bottom }
        walk: root.walk
        onPhotoWanted: (findingId, words) => root.photoWanted(findingId, words)
    }

    Grid {
        id: keys

        anchors { right: parent.right; bottom: parent.bottom }
        columns: 3
        spacing: Theme.gap

        Repeater {
            model: ["7", "8", "9", "4", "5", "6", "1", "2", "3", "", "0", "<"]

            delegate: KeyCap {
                required property string modelData

                width: root.key * 1.2
                height: root.key
                visible: true
                opacity: modelData.length > 0 ? 1 : 0
                available: modelData.length > 0
                text: modelData === "<" ? "" : modelData
                symbol: modelData === "<" ? Icon.Erase : Icon.NoSymbol
                Accessible.name: modelData === "<" ? qsTr("Back one reading") : modelData
                onStruck: {
                    if (modelData === "<")
                        root.pad.goBack()
                    else
                        root.pad.strike(Number(modelData))
                }
            }
        }
    }
}
