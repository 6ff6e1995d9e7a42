// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A transcript that waits: what it is, and whose. A touch reads it, or asks for the car first.
//   required: roles of TranscriptFiles;  signals readWanted(), carWanted(), and refused() where it
//   cannot be read
Touchable {
    id: root

    required property string path
    required property string name
    required property string aboutWords
    required property string fault
    required property string damage
    required property string carId
    required property string carWords
    readonly property string note: fault.length > 0 ? fault : damage

    signal readWanted
    signal carWanted

    available: fault.length === 0
    spoken: name
    implicitHeight: Math.max(Theme.mm(26), text.height + 2 * Theme.module)
    onTapped: {
        if (root.carId.length > 0)
            root.readWanted()
        else
            root.carWanted()
    }

    Rectangle {
        anchors.fill: parent
        color: root.pressed ? Theme.sunk : "transparent"
        border.width: root.activeFocus ? Theme.thickLine : 0
        border.color: Theme.accent
    }

    Rectangle {
        width: parent.width
        height: Theme.line
        color: Theme.rule
    }

    Column {
        id: text

        anchors { left: parent.left; right: whose.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
        spacing: Theme.line * 2

        Label {
            width: parent.width
            text: root.name
            muted: !root.available
            elide: Text.ElideMiddle
        }

        Label {
            width: parent.width
            text: root.aboutWords
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.available && root.carId.length > 0
            text: qsTr("for %1").arg(root.carWords)
            strong: true
            elide: Text.ElideRight
        }

        Row {
            visible: root.note.length > 0
            spacing: Theme.half

            Icon {
                y: Theme.mm(0.6)
                symbol: root.available ? Icon.NoSymbol : Icon.Cross
                visible: !root.available
                width: Theme.mm(4)
                height: Theme.mm(4)
            }

            Label {
                width: Math.min(implicitWidth, text.width - Theme.mm(7))
                text: root.note
                role: Label.Detail
                wrapMode: Text.WordWrap
                maximumLineCount: 2
                elide: Text.ElideRight
            }
        }
    }

    Row {
        id: whose

        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
        spacing: Theme.gap
        visible: root.available
        width: visible ? implicitWidth : 0

        ActionButton {
            visible: root.carId.length > 0
            paper: true
            text: qsTr("Another car")
            onTapped: root.carWanted()
        }

        ActionButton {
            paper: true
            kind: ActionButton.Accent
            text: root.carId.length > 0 ? qsTr("Read it") : qsTr("Choose the car")
            onTapped: root.tap()
        }
    }
}
