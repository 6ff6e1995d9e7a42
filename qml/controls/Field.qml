// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A labelled line of text. Touching it calls up the touch keyboard.
//   label, text, placeholder, problem (what is wrong with it), maximumLength, readOnly
//   input: the inner TextInput (validator, inputMethodHints, echoMode)
//   signals edited(string text), accepted();  edit() gives it the focus
FocusScope {
    id: root

    property string label: ""
    property string placeholder: ""
    property string problem: ""
    property alias text: line.text
    property alias maximumLength: line.maximumLength
    property alias readOnly: line.readOnly
    readonly property FieldInput input: line

    signal edited(string text)
    signal accepted

    function edit(): void {
        line.forceActiveFocus()
    }

    implicitWidth: Theme.mm(80)
    implicitHeight: box.y + box.height + (wrong.visible ? wrong.implicitHeight + Theme.line * 2 : 0)

    MouseArea {
        anchors.fill: parent
        onClicked: root.edit()
    }

    Label {
        id: name

        width: parent.width
        visible: root.label.length > 0
        text: root.label
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }

    Rectangle {
        id: box

        y: name.visible ? name.height + Theme.line * 2 : 0
        width: parent.width
        height: Theme.touch
        radius: Theme.radius
        color: root.readOnly ? Theme.sunk : Theme.paper
        border.width: line.activeFocus || root.problem.length > 0 ? Theme.thickLine : Theme.line
        border.color: root.problem.length > 0 ? Theme.ink : line.activeFocus ? Theme.accent : Theme.paperLine

        FieldInput {
            id: line

            anchors { fill: parent; leftMargin: Theme.module; rightMargin: Theme.module }
            focus: true
            onTextEdited: root.edited(text)
            onAccepted: root.accepted()
        }

        Label {
            anchors { left: parent.left; leftMargin: Theme.module; verticalCenter: parent.verticalCenter }
            visible: line.text.length === 0 && !line.activeFocus
            text: root.placeholder
            muted: true
        }
    }

    Row {
        id: wrong

        anchors { top: box.bottom; topMargin: Theme.line * 2 }
        visible: root.problem.length > 0
        spacing: Theme.half / 2

        Icon {
            anchors.verticalCenter: parent.verticalCenter
            symbol: Icon.Cross
            width: Theme.mm(3.6)
            height: Theme.mm(3.6)
        }

        Label {
            width: Math.min(implicitWidth, root.width - Theme.mm(6))
            text: root.problem
            role: Label.Detail
            wrapMode: Text.WordWrap
        }
    }
}
