// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// What came of something, in words: what happened, what was kept, what to do.
//   kind: Banner.Note (all went well; shown like a refusal, without its tone) | Banner.Refusal | Banner.Fault;  what, kept, todo;  action (words of the button, may be
//   empty);  closable;  signals acted(), closed()
//   done: a note of something that was done: it has a tick
Rectangle {
    id: root

    enum Kind {
        Note,
        Refusal,
        Fault
    }

    property int kind: Banner.Refusal
    property string what: ""
    property string kept: ""
    property string todo: ""
    property string action: ""
    property bool closable: true
    property bool done: false

    signal acted
    signal closed

    readonly property bool fault: kind === Banner.Fault

    onVisibleChanged: {
        if (visible && kind !== Banner.Note)
            Notices.refused()
    }

    implicitWidth: Theme.mm(180)
    implicitHeight: Math.max(words.implicitHeight, buttons.implicitHeight) + 2 * Theme.module
    color: Theme.paper
    radius: Theme.radius
    border.width: Theme.thickLine
    border.color: Theme.ink
    Accessible.role: Accessible.AlertMessage
    Accessible.name: what

    // The side says which of the two it is: a bar for a refusal, a solid block with a cross for a fault.
    Rectangle {
        id: side

        anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
        width: Theme.mm(15)
        radius: Theme.radius
        color: root.fault ? Theme.ink : Theme.sunk

        Rectangle {
            anchors { right: parent.right; top: parent.top; bottom: parent.bottom }
            width: Theme.radius
            color: parent.color
        }

        Icon {
            visible: root.fault || root.done
            anchors.centerIn: parent
            width: Theme.mm(9)
            height: Theme.mm(9)
            symbol: root.fault ? Icon.Cross : Icon.Tick
            colour: root.fault ? Theme.paper : Theme.ink
        }

        Rectangle {
            visible: !root.fault && !root.done
            anchors.centerIn: parent
            width: Theme.mm(9)
            height: Theme.mm(2.2)
            color: Theme.ink
        }
    }

    Column {
        id: words

        anchors {
            left: side.right
            leftMargin: Theme.module
            right: buttons.left
            rightMargin: Theme.module
            verticalCenter: parent.verticalCenter
        }
        spacing: Theme.line * 2

        Label {
            width: parent.width
            text: root.what
            strong: true
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.kept.length > 0
            text: root.kept
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: root.todo.length > 0
            text: root.todo
            muted: true
            wrapMode: Text.WordWrap
        }
    }

    Row {
        id: buttons

        anchors { right: parent.right; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
        spacing: Theme.gap

        ActionButton {
            visible: root.action.length > 0
            kind: ActionButton.Accent
            paper: true
            text: root.action
            onTapped: root.acted()
        }

        ActionButton {
            visible: root.closable
            paper: true
            text: qsTr("Close")
            onTapped: root.closed()
        }
    }
}
