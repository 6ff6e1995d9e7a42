// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One thing that is kept here: the car, the work, who did what when; and, once it was refused, what
// the workshop's ledger says instead. Or a notice: what befell this kiosk, and what to do.
//   required: roles of KeptModel;  signal noted(): somebody has read it
Item {
    id: root

    required property int number
    required property string stockNumber
    required property string work
    required property string here
    required property string photoUrl
    required property bool toBeRead
    required property bool notice
    required property string refusal
    required property list<string> there
    required property string readBy

    signal noted

    implicitHeight: lines.height + Theme.module
    Accessible.name: root.stockNumber + ", " + root.work

    Column {
        id: lines

        anchors { left: parent.left; right: parent.right; top: parent.top }
        spacing: Theme.line * 2

        Label {
            width: parent.width
            text: root.stockNumber.length > 0 && root.work.length > 0 ? root.stockNumber + " · " + root.work : root.stockNumber + root.work
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.toBeRead && !root.notice
            text: qsTr("Done here")
            role: Label.Detail
            muted: true
        }

        Label {
            width: parent.width
            text: root.here
            wrapMode: Text.WordWrap
        }

        Image {
            width: Math.min(parent.width, Theme.mm(60))
            height: visible ? Theme.mm(45) : 0
            visible: root.photoUrl.length > 0
            source: visible ? root.photoUrl : ""
            sourceSize.width: Theme.mm(120)
            asynchronous: true
            fillMode: Image.PreserveAspectFit
            horizontalAlignment: Image.AlignLeft
        }

        Label {
            width: parent.width
            visible: root.toBeRead
            topPadding: Theme.half
            text: root.notice ? qsTr("What to do") : qsTr("The workshop's ledger says no")
            role: Label.Detail
            muted: true
        }

        Label {
            width: parent.width
            visible: root.toBeRead
            text: root.refusal
            wrapMode: Text.WordWrap
        }

        Repeater {
            model: root.there

            delegate: Label {
                required property string modelData

                width: lines.width
                text: modelData
                role: Label.Detail
                wrapMode: Text.WordWrap
            }
        }

        Label {
            width: parent.width
            visible: text.length > 0
            topPadding: Theme.half
            text: root.readBy
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }

        ActionButton {
            visible: root.toBeRead && root.readBy.length === 0
            paper: true
            kind: ActionButton.Accent
            text: root.notice ? qsTr("I have read this") : qsTr("I have read both")
            onTapped: root.noted()
        }
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        height: Theme.line
        color: Theme.rule
    }
}
