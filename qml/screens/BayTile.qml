// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Drawing
import Ramplight.Theme

// A bay in the strip of the wall. Above, in distance type, its number and the car in it; below who
// is on it and for how long, or what must not be done with it. A free bay is a dashed place.
//   required: the roles of BaysModel;  known: the cars were read
//   needed: the width that the stock number wants (read only)
//   signal wanted(): the tile of a taken bay was touched
Touchable {
    id: root

    required property int number
    required property string name
    required property bool free
    required property string carId
    required property string stockNumber
    required property string who
    required property string whoShort
    required property string stateWords
    required property bool forgotten
    required property double progress
    required property bool showProgress
    required property string restraintWords
    required property int band
    property bool known: true

    readonly property bool restrained: !free && restraintWords.length > 0
    readonly property bool manned: !free && who.length > 0
    readonly property string freeWords: known ? qsTr("free") : qsTr("not known")
    readonly property real inset: Theme.mm(3)
    // Above its capitals, and where they stand.
    readonly property real head: Theme.mm(1.8)
    readonly property real foot: head + Theme.mm(17.5)
    // Of the lower line over the edge: its descenders stay within.
    readonly property real rise: Theme.mm(2.9)
    readonly property real needed: free ? 0 : stock.x + stock.least + root.inset

    // Who is on a car of which something must not be done: beside its number where there is room.
    readonly property real besideX: stock.x + stock.taken + Theme.mm(3)
    readonly property real besideRoom: width - besideX - Theme.half
    readonly property bool whoBeside: manned && restrained && stock.lines === 1 && besideRoom >= first.advanceWidth + 1
    // Where the words below begin: the second line of a number takes their left.
    readonly property real lowX: !free && stock.lines > 1 ? besideX : stock.x

    signal wanted

    available: !free
    spoken: qsTr("Bay %1").arg(number) + " " + (free ? freeWords : stockNumber)
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

        x: root.inset
        y: root.foot - baselineOffset
        text: root.number
        role: Label.Distance
        paper: false
        muted: true
    }

    StockNumber {
        id: stock

        x: figure.x + figure.width + Theme.mm(4)
        head: root.head
        room: root.width - x - root.inset
        visible: !root.free
        number: root.stockNumber
        paper: false
    }

    Label {
        x: stock.x
        y: figure.y + figure.baselineOffset - baselineOffset
        visible: root.free
        text: root.freeWords
        role: Label.Title
        paper: false
    }

    TextMetrics {
        id: whole

        font.family: Theme.family
        font.pixelSize: Theme.titleSize
        text: root.who
    }

    TextMetrics {
        id: first

        font.family: Theme.family
        font.pixelSize: Theme.titleSize
        text: root.whoShort
    }

    // What must not be done with the car: a strap from edge to edge, or up to who is on it.
    Rectangle {
        id: strap

        x: stock.lines > 1 ? root.lowX : 0
        y: parent.height - height
        width: (root.manned && !root.whoBeside ? hand.x - Theme.mm(2) : root.width) - x
        height: Theme.mm(10.5)
        visible: root.restrained
        radius: Theme.radius
        color: Theme.hazardInk

        Rectangle {
            width: parent.width
            height: Theme.line * 2
            color: Theme.hazard
        }

        Label {
            anchors { left: parent.left; right: parent.right; leftMargin: Theme.half; rightMargin: Theme.half }
            y: parent.height - root.rise - baselineOffset
            text: root.restraintWords
            role: Label.Title
            strong: true
            color: Theme.paper
            horizontalAlignment: Text.AlignHCenter
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Theme.detailSize
        }
    }

    Label {
        id: hand

        readonly property real room: root.whoBeside ? root.besideRoom
            : root.restrained ? Math.min(Math.ceil(first.advanceWidth) + 1, root.width * 0.4)
            : root.width - root.lowX - root.inset - (since.visible ? since.width + Theme.mm(3) : 0)
        readonly property bool wholly: whole.advanceWidth <= room
        readonly property real natural: wholly ? whole.advanceWidth : first.advanceWidth

        x: root.whoBeside ? root.besideX : root.restrained ? root.width - root.inset - width : root.lowX
        y: (root.whoBeside ? root.foot : root.height - root.rise) - baselineOffset
        width: room
        visible: root.manned
        text: wholly ? root.who : root.whoShort
        role: Label.Title
        // Beside a number it may be larger.
        font.pixelSize: root.whoBeside ? Math.max(Theme.titleSize, Math.min(Theme.titleSize * 10 / 7, Math.floor(Theme.titleSize * room / Math.max(1, natural)))) : Theme.titleSize
        paper: false
        elide: Text.ElideRight
    }

    // For how long, over how much of the usual time that is; or what a car waits for.
    Label {
        id: since

        readonly property bool alone: !root.manned
        readonly property real natural: implicitWidth

        x: alone ? root.lowX : root.width - width - root.inset
        y: root.height - (root.showProgress ? Theme.mm(3.6) : root.rise) - baselineOffset
        width: alone ? root.width - x - root.inset - (bay.visible ? bay.width + Theme.half : 0)
            : Math.max(root.showProgress ? Theme.mm(26) : 0, Math.min(natural, Theme.mm(44)))
        visible: !root.free && !root.restrained && text.length > 0
        text: root.stateWords
        strong: root.forgotten
        paper: false
        horizontalAlignment: alone ? Text.AlignLeft : Text.AlignRight
        elide: Text.ElideRight
    }

    // The name is painted on the floor: it stands here while nobody is on the car.
    Label {
        id: bay

        readonly property real natural: implicitWidth

        x: root.free ? root.lowX : root.width - width - root.inset
        y: root.height - root.rise - baselineOffset
        width: root.free ? root.width - root.lowX - root.inset : Math.min(natural, root.width * 0.3)
        visible: root.free || !root.manned && !root.restrained
        text: root.name
        role: root.free ? Label.Reading : Label.Detail
        paper: false
        muted: true
        elide: Text.ElideRight
    }

    Rectangle {
        x: since.x
        y: root.height - Theme.mm(2.2)
        width: since.width
        height: Theme.mm(1.2)
        visible: root.showProgress && since.visible
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
