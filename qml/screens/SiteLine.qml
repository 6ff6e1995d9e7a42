// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A site of the group and its counts, each under its word. A row of SitesModel.
Item {
    id: root

    required property string name
    required property bool own
    required property int inPrep
    required property int held
    required property int ready
    required property int late
    required property string oldestWords

    implicitHeight: Math.max(Theme.touch, body.implicitHeight + Theme.module)
    Accessible.role: Accessible.StaticText
    Accessible.name: qsTr("%1: %2 in prep, %3 held by safety, %4 ready, %5 late").arg(name).arg(inPrep).arg(held).arg(ready).arg(late)

    component Figure: Column {
        id: figure

        property int count: 0
        property string words: ""
        property bool hatched: false
        property bool strong: false

        width: Theme.mm(30)

        Row {
            spacing: Theme.half

            Label {
                text: figure.count
                role: Label.Title
                strong: figure.strong && figure.count > 0
                muted: figure.count === 0
            }

            Icon {
                anchors.verticalCenter: parent.verticalCenter
                visible: figure.hatched && figure.count > 0
                width: Theme.mm(6)
                height: Theme.mm(6)
                symbol: Icon.HatchMark
            }
        }

        Label {
            width: parent.width
            text: figure.words
            role: Label.Detail
            muted: true
        }
    }

    Rectangle {
        width: parent.width
        height: Theme.line
        color: Theme.rule
    }

    Item {
        id: body

        // Side by side where there is room, otherwise the counts below the name.
        readonly property bool beside: root.width > Theme.mm(300)

        anchors { left: parent.left; right: parent.right; verticalCenter: parent.verticalCenter }
        implicitHeight: beside ? Math.max(names.implicitHeight, figures.implicitHeight) : names.implicitHeight + Theme.half + figures.implicitHeight

        Column {
            id: names

            width: body.beside ? parent.width - figures.width - Theme.module : parent.width

            Label {
                width: parent.width
                text: root.name
                strong: root.own
                elide: Text.ElideRight
            }

            Label {
                width: parent.width
                text: (root.own ? [qsTr("this workshop")] : []).concat(root.oldestWords.length > 0 ? [qsTr("the car that waits longest has lain still %1").arg(root.oldestWords)] : []).join(" · ")
                visible: text.length > 0
                role: Label.Detail
                muted: true
                wrapMode: Text.WordWrap
            }
        }

        Row {
            id: figures

            x: body.beside ? body.width - width : 0
            y: body.beside ? (body.height - height) / 2 : names.implicitHeight + Theme.half

            Figure {
                count: root.inPrep
                words: qsTr("in prep")
            }

            Figure {
                width: Theme.mm(42)
                count: root.held
                words: qsTr("held by safety")
                hatched: true
            }

            Figure {
                count: root.ready
                words: qsTr("ready")
            }

            Figure {
                count: root.late
                words: qsTr("late")
                strong: true
            }
        }
    }
}
