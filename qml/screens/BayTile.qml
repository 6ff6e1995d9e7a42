// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Drawing
import Ramplight.Theme

// A bay in the strip of the wall: its number and the car in it in distance type, beside them who is
// on it and for how long. A free bay is a dashed place.
//   required: the roles of BaysModel;  signal wanted(): the tile of a taken bay was touched
Touchable {
    id: root

    required property int number
    required property string name
    required property bool free
    required property string carId
    required property string stockNumber
    required property string who
    required property string stateWords
    required property bool forgotten
    required property double progress
    required property bool showProgress
    required property string restraintWords
    required property int band

    signal wanted

    available: !free
    spoken: qsTr("Bay %1").arg(number) + " " + (free ? qsTr("free") : stockNumber)
    onTapped: root.wanted()

    Rectangle {
        anchors.fill: parent
        visible: !root.free
        radius: Theme.radius
        color: root.pressed ? Theme.groundLine : Theme.raised
    }

    DashedFrame {
        anchors.fill: parent
        visible: root.free
        colour: Theme.groundLine
        radius: Theme.radius
        lineWidth: Theme.line
    }

    Label {
        id: figure

        x: Theme.mm(3)
        anchors.verticalCenter: parent.verticalCenter
        height: parent.height
        verticalAlignment: Text.AlignVCenter
        text: root.number
        role: Label.Distance
        paper: false
        muted: true
    }

    Label {
        id: stock

        anchors.verticalCenter: parent.verticalCenter
        x: figure.x + figure.width + Theme.mm(4)
        width: Math.min(implicitWidth, root.width - x - Theme.mm(3))
        height: parent.height
        visible: !root.free
        verticalAlignment: Text.AlignVCenter
        text: root.stockNumber
        role: Label.Distance
        paper: false
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Theme.titleSize
    }

    Column {
        id: beside

        readonly property real start: root.free ? figure.x + figure.width + Theme.mm(4) : stock.x + stock.width + Theme.mm(3.5)

        x: start
        anchors { verticalCenter: parent.verticalCenter; verticalCenterOffset: root.showProgress ? -Theme.mm(1.4) : 0 }
        width: root.width - start - Theme.half
        visible: width > Theme.mm(12)

        Label {
            width: parent.width
            // Three lines find room beside a stock number: the name is painted on the floor.
            visible: root.free || root.who.length === 0 || root.restraintWords.length === 0
            text: root.name
            role: Label.Detail
            paper: false
            muted: true
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: text.length > 0
            text: root.free ? qsTr("free") : root.who
            role: root.free ? Label.Reading : Label.Detail
            paper: false
            elide: Text.ElideRight
        }

        Label {
            width: parent.width
            visible: !root.free && text.length > 0
            text: root.restraintWords.length > 0 ? root.restraintWords : root.stateWords
            role: Label.Detail
            strong: root.restraintWords.length > 0 || root.forgotten
            paper: false
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
        }
    }

    Rectangle {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; leftMargin: Theme.mm(3); rightMargin: Theme.mm(3); bottomMargin: Theme.mm(1.2) }
        height: Theme.mm(1.2)
        visible: root.showProgress
        radius: height / 2
        color: Theme.ground

        Rectangle {
            width: parent.width * Math.min(1, root.progress)
            height: parent.height
            radius: height / 2
            color: Theme.groundAccent
        }
    }
}
