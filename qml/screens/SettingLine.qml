// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// One thing that is set: what it is, what holds now, and whose it is.
//   title, detail (small, below), value, note (small, below the value), mark: SettingLine.Plain |
//   Changed (the house's own, a bar at the left) | Overdue (a cross)
//   editable: a touch changes it;  signal tapped()
Touchable {
    id: root

    enum Mark {
        Plain,
        Changed,
        Overdue
    }

    property string title: ""
    property string detail: ""
    property string value: ""
    property string note: ""
    property int mark: SettingLine.Plain
    property bool editable: true
    property bool muted: false

    available: editable
    spoken: title
    width: parent ? parent.width : implicitWidth
    implicitHeight: Math.max(Theme.touch, words.height + Theme.module, worth.height + Theme.module)

    Rectangle {
        width: parent.width
        height: Theme.line
        color: Theme.rule
    }

    Rectangle {
        anchors { left: parent.left; top: parent.top; bottom: parent.bottom; topMargin: Theme.half; bottomMargin: Theme.half }
        visible: root.mark === SettingLine.Changed
        width: Theme.mm(1.2)
        color: Theme.accent
    }

    Column {
        id: words

        anchors { left: parent.left; leftMargin: root.mark === SettingLine.Changed ? Theme.module : 0; right: worth.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

        Label {
            width: parent.width
            text: root.title
            muted: root.muted
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.detail
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }
    }

    Column {
        id: worth

        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
        width: Math.min(implicitWidth, root.width * 0.5)

        Row {
            anchors.right: parent.right
            spacing: Theme.half

            Icon {
                anchors.verticalCenter: parent.verticalCenter
                visible: root.mark === SettingLine.Overdue
                symbol: Icon.Cross
                width: Theme.mm(6)
                height: Theme.mm(6)
            }

            Label {
                text: root.value
                strong: root.editable && !root.muted
                muted: root.muted
                color: root.editable && !root.muted ? Theme.accent : root.muted ? Theme.inkMuted : Theme.ink
            }
        }

        Label {
            anchors.right: parent.right
            visible: text.length > 0
            text: root.note
            role: Label.Detail
            muted: true
        }
    }
}
