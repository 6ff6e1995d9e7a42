// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Drawing
import Ramplight.Kiosk
import Ramplight.Theme

// A bay, read from 3 m: its number, the car in it, who is on it, how long against usual, what comes
// next.
//   required: the roles of BayBoard.bays;  signals wanted(carId), workWanted(carId, operationId):
//   a timer on it was probably forgotten, and is put right there
Touchable {
    id: root

    required property int number
    required property string name
    required property bool free
    required property string carId
    required property string stockNumber
    required property string makeModel
    required property int band
    required property string who
    required property string task
    required property string elapsedWords
    required property real progress
    required property bool over
    required property string forgottenWords
    required property int forgottenWork
    required property string restraintWords
    required property string nextStock
    required property string nextWords

    readonly property bool isReady: band === Wall.Ready
    readonly property real inset: Theme.mm(5)
    readonly property bool strapped: restraintWords.length > 0
    readonly property real headFoot: Theme.mm(3 + 17.5 + 5)
    // Beside the stock number where that leaves room, below it otherwise.
    readonly property real beside: width - stock.x - stock.width - inset - Theme.mm(4)
    readonly property bool strapBeside: beside >= Theme.mm(44)

    signal wanted(string carId)
    signal workWanted(string carId, int operationId)

    spoken: qsTr("Bay %1: %2").arg(number).arg(free ? qsTr("free") : stockNumber)
    onTapped: {
        if (root.forgottenWork > 0)
            root.workWanted(root.carId, root.forgottenWork)
        else if (!root.free)
            root.wanted(root.carId)
    }

    Rectangle {
        anchors.fill: parent
        visible: !root.free
        radius: Theme.radius
        color: root.pressed ? Theme.sunk : Theme.paper
    }

    DashedFrame {
        anchors.fill: parent
        visible: root.free
        colour: Theme.groundLine
        radius: Theme.radius
        lineWidth: Theme.line
    }

    StateBand {
        anchors { left: parent.left; top: parent.top; bottom: parent.bottom }
        width: Theme.band
        visible: !root.free && !root.isReady
        band: root.isReady ? StateBand.None : root.band
    }

    FoldedCorner {
        anchors { right: parent.right; bottom: parent.bottom }
        visible: root.isReady
        width: Theme.mm(16)
        height: Theme.mm(16)
    }

    // The number on the floor, in the corner that is the same on every tile.
    Label {
        id: figure

        x: Theme.band + root.inset
        y: Theme.mm(3 + 17.5) - baselineOffset
        text: root.number
        role: Label.Distance
        paper: !root.free
        muted: true
    }

    Label {
        id: stock

        x: figure.x + Math.max(figure.width, Theme.mm(18)) + Theme.mm(5)
        y: Theme.mm(3 + 17.5) - baselineOffset
        width: Math.min(implicitWidth, root.width - x - root.inset)
        text: root.free ? qsTr("free") : root.stockNumber
        role: Label.Distance
        paper: !root.free
        muted: root.free
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Theme.titleSize
    }

    Strap {
        x: root.strapBeside ? stock.x + stock.width + Theme.mm(4) : Theme.band
        y: root.strapBeside ? Theme.mm(3) : root.headFoot - Theme.half
        width: root.strapBeside ? root.beside : root.width - x
        height: Theme.mm(root.strapBeside ? 19 : 14)
        visible: root.strapped
        text: root.restraintWords
    }

    Column {
        id: words

        readonly property real room: (meter.visible ? meter.y : next.y) - y

        x: figure.x
        y: root.headFoot + (root.strapped && !root.strapBeside ? Theme.mm(14) : 0)
        width: root.width - x - root.inset

        Label {
            width: parent.width
            visible: root.free || words.room >= height + who.height + (task.visible ? task.height : 0)
            text: root.free ? root.name : root.name + " · " + root.makeModel
            role: Label.Detail
            paper: !root.free
            muted: true
            elide: Text.ElideRight
        }

        Label {
            id: who

            width: parent.width
            visible: !root.free
            text: root.who.length > 0 ? root.who : root.task
            // Names are read on the way across the shop; a state is no name.
            font.pixelSize: root.who.length > 0 ? Theme.titleSize * 1.5 : Theme.titleSize
            elide: Text.ElideRight
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: root.who.length > 0 ? Theme.titleSize : Theme.readingSize
        }

        Label {
            id: task

            width: parent.width
            visible: !root.free && root.who.length > 0
            text: root.task
            elide: Text.ElideRight
        }
    }

    // How long it has been in hand against how long it usually takes: past the mark it is over.
    Item {
        id: meter

        readonly property real full: 1.5

        x: figure.x
        width: root.width - x - root.inset
        height: elapsed.height + Theme.mm(4)
        anchors { bottom: next.top; bottomMargin: Theme.half }
        visible: root.elapsedWords.length > 0

        Label {
            id: elapsed

            width: parent.width
            text: root.forgottenWords.length > 0 ? root.forgottenWords
                : root.over ? qsTr("%1, over").arg(root.elapsedWords) : root.elapsedWords
            role: Label.Title
            strong: root.over || root.forgottenWords.length > 0
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.readingSize
            elide: Text.ElideRight
        }

        Rectangle {
            anchors.bottom: parent.bottom
            width: parent.width
            height: Theme.mm(2)
            radius: height / 2
            color: Theme.rule
        }

        Rectangle {
            anchors.bottom: parent.bottom
            width: parent.width * Math.min(meter.full, root.progress) / meter.full
            height: Theme.mm(2)
            radius: height / 2
            color: Theme.ink
        }

        Rectangle {
            anchors.bottom: parent.bottom
            x: parent.width / meter.full - width / 2
            width: Theme.thickLine
            height: Theme.mm(4)
            color: Theme.ink
        }
    }

    Item {
        id: next

        x: figure.x
        width: root.width - x - (root.isReady ? Theme.mm(17) : root.inset)
        height: Theme.mm(13)
        anchors.bottom: parent.bottom

        Rectangle {
            width: parent.width
            height: Theme.line
            visible: !root.free
            color: Theme.rule
        }

        Label {
            anchors.verticalCenter: parent.verticalCenter
            width: parent.width
            text: root.nextStock.length > 0 ? root.nextWords : qsTr("nothing planned next")
            role: root.nextStock.length > 0 ? Label.Title : Label.Detail
            paper: !root.free
            muted: root.nextStock.length === 0
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: root.nextStock.length > 0 ? Theme.readingSize : Theme.detailSize
            elide: Text.ElideRight
        }
    }
}
