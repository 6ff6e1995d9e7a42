// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// Twelve tread readings, two digits each; the plan beside it shows where the next one goes. A date
// code can be typed for the tyre whose turn it is.
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
            visible: root.pad.window.length > 0
            text: root.pad.window
            role: Label.Title
        }

        Label {
            width: parent.width
            visible: root.pad.fault.length > 0
            text: root.pad.fault
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.pad.fault.length === 0
            text: root.pad.coding ? qsTr("The last four digits after DOT: week and year, 2319 is week 23 of 2019.")
                : qsTr("%1 of 12 readings; two digits each, 4 5 is 4.5 mm; %2.").arg(root.pad.taken).arg(root.pad.limitWords)
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        ActionButton {
            visible: root.pad.placeId.length > 0
            paper: true
            text: root.pad.coding ? qsTr("Back to the tread") : root.pad.codeWords.length > 0 ? root.pad.codeWords : qsTr("Date code")
            onTapped: root.pad.typeCode(!root.pad.coding)
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
