// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// One reading of an operation: what is measured, its value, its limit and who set that.
//   title, place (where several places share the title), value (as typed), unit, limit ("10 to 20 min"), source ("product data sheet")
//   reading: ReadingRow.Empty | Inside | Outside | Recorded (no limit to hold against)
//   plain: the value is words, not a figure
//   active: the pad writes into this one;  editable;  signal tapped()
Touchable {
    id: root

    enum Reading {
        Empty,
        Inside,
        Outside,
        Recorded
    }

    property string title: ""
    property string place: ""
    property string value: ""
    property string unit: ""
    property string limit: ""
    property string source: ""
    property int reading: ReadingRow.Empty
    property bool active: false
    property bool editable: true
    property bool plain: false

    readonly property bool outside: reading === ReadingRow.Outside

    spoken: place.length > 0 ? qsTr("%1, %2").arg(title).arg(place) : title
    implicitWidth: Theme.mm(150)
    implicitHeight: Math.max(Theme.mm(26), words.implicitHeight + Theme.module, heading.implicitHeight + Theme.module)

    Rectangle {
        width: parent.width
        height: Theme.line
        color: Theme.rule
    }

    Column {
        id: heading

        anchors { left: parent.left; right: box.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.place.charAt(0).toUpperCase() + root.place.slice(1)
            strong: true
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            text: root.title
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }
    }

    Rectangle {
        id: box

        anchors { right: words.left; rightMargin: Theme.module; verticalCenter: parent.verticalCenter }
        width: Theme.mm(52)
        height: Theme.mm(18)
        radius: Theme.radius
        color: root.outside ? Theme.ink : root.editable ? Theme.paper : "transparent"
        border.width: root.active ? Theme.thickLine : root.editable ? Theme.line : 0
        border.color: root.active || root.value.length === 0 ? Theme.accent : Theme.paperLine

        Row {
            anchors.centerIn: parent
            spacing: Theme.half

            Label {
                id: figure

                width: root.plain ? box.width - 2 * Theme.half : Math.min(implicitWidth, box.width - 2 * Theme.half)
                height: root.plain ? box.height - Theme.half : implicitHeight
                text: root.value
                role: root.plain ? Label.Reading : Label.Title
                // Words go on a second line, and smaller.
                wrapMode: root.plain ? Text.WordWrap : Text.NoWrap
                maximumLineCount: root.plain ? 3 : 1
                fontSizeMode: root.plain ? Text.Fit : Text.FixedSize
                minimumPixelSize: Theme.detailSize
                lineHeight: root.plain ? 0.9 : 1
                horizontalAlignment: Text.AlignHCenter
                verticalAlignment: Text.AlignVCenter
                // What is cut would count as fitting.
                elide: root.plain ? Text.ElideNone : Text.ElideRight
                color: root.outside ? Theme.paper : Theme.ink
            }

            Label {
                anchors.baseline: figure.baseline
                text: root.unit
                muted: true
                color: root.outside ? Theme.paper : Theme.inkMuted
            }
        }
    }

    Column {
        id: words

        anchors { right: parent.right; verticalCenter: parent.verticalCenter }
        width: Math.max(Theme.mm(34), parent.width * 0.26)

        Row {
            visible: root.reading === ReadingRow.Inside || root.outside
            spacing: Theme.half

            Icon {
                anchors.verticalCenter: parent.verticalCenter
                symbol: root.outside ? Icon.Cross : Icon.Tick
                width: Theme.mm(5.5)
                height: Theme.mm(5.5)
            }

            Label {
                text: root.outside ? qsTr("outside") : root.plain ? qsTr("in order") : qsTr("inside")
                strong: root.outside
            }
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.limit
            role: Label.Detail
            wrapMode: Text.WordWrap
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.source
            role: Label.Detail
            muted: true
            wrapMode: Text.WordWrap
        }
    }
}
